package casefile_test

import (
	"encoding/json"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/goccy/go-yaml"
	"github.com/google/jsonschema-go/jsonschema"
	"github.com/stretchr/testify/require"

	"seatwise/examples"
	"seatwise/network/casefile"
	"seatwise/valve/catalogue"
)

var resolvedKinds = map[casefile.FileKind]*jsonschema.Resolved{}

// resolved is the schema of a kind of file as an editor has it: written as JSON and read again.
func resolved(t testing.TB, k casefile.FileKind) *jsonschema.Resolved {
	if r := resolvedKinds[k]; r != nil {
		return r
	}
	raw, err := json.Marshal(casefile.Schema(k))
	require.NoError(t, err)
	var s jsonschema.Schema
	require.NoError(t, json.Unmarshal(raw, &s))
	r, err := s.Resolve(&jsonschema.ResolveOptions{ValidateDefaults: true})
	require.NoError(t, err)
	resolvedKinds[k] = r
	return r
}

// instance is a text as an editor reads it, YAML without units or sections.
func instance(t require.TestingT, text string) any {
	var v any
	require.NoError(t, yaml.Unmarshal([]byte(text), &v))
	raw, err := json.Marshal(v)
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(raw, &v))
	return v
}

// yamlBlocks are the blocks of YAML in the README from the case file that it explains on.
func yamlBlocks(t testing.TB) []string {
	raw, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	require.NoError(t, err)
	_, text, ok := strings.Cut(string(raw), "\n## Case file\n")
	require.True(t, ok)
	var blocks []string
	for i, part := range strings.Split(text, "```") {
		if text, ok := strings.CutPrefix(part, "yaml\n"); ok && i%2 == 1 {
			blocks = append(blocks, text)
		}
	}
	require.Greater(t, len(blocks), 2)
	return blocks
}

func TestSchemaTakesWhatTheReaderTakes(t *testing.T) {
	cases, valves, candidates := resolved(t, casefile.CaseFile), resolved(t, casefile.ValvesFile), resolved(t, casefile.CandidatesFile)
	names, err := fs.Glob(examples.Files, "*.yaml")
	require.NoError(t, err)
	for _, name := range names {
		raw, err := examples.Files.ReadFile(name)
		require.NoError(t, err)
		require.NoError(t, cases.Validate(instance(t, string(raw))), name)
	}
	files, err := filepath.Glob(filepath.Join("..", "..", "cmd", "seatwise", "testdata", "case", "*.yaml"))
	require.NoError(t, err)
	require.Greater(t, len(files), 5)
	for _, name := range files {
		raw, err := os.ReadFile(name)
		require.NoError(t, err)
		require.NoError(t, cases.Validate(instance(t, string(raw))), name)
	}
	blocks := yamlBlocks(t)
	require.NoError(t, cases.Validate(instance(t, blocks[0])))
	require.NoError(t, cases.Validate(instance(t, lift(t))))
	require.NoError(t, cases.Validate(instance(t, equipped(t))))
	require.NoError(t, valves.Validate(instance(t, blocks[1])))
	require.NoError(t, candidates.Validate(instance(t, "format: 1\ncandidates: {a: {type: swing, size: DN250}}\n")))
}

// TestSchemaRefuses breaks a case in the ways in which an editor can tell at once. The reader refuses each of them too.
func TestSchemaRefuses(t *testing.T) {
	cases := resolved(t, casefile.CaseFile)
	text := lift(t)
	broken := [][2]string{
		{"format: 1", "format: one"},
		{"format: 1\n", ""},
		{"fluid: {liquid: water, temperature: 15 °C}\n", ""},
		{"temperature: 15 °C", "temprature: 15 °C"},
		{"temperature: 15 °C", "temperature: 15"},
		{"temperature: 15 °C", "temperature: 15 bar"},
		{"liquid: water, temperature: 15 °C", "liquid: glycol"},
		{"atmosphere: 101.3 kPa", "atmosphere: 101.3"},
		{"atmosphere: 101.3 kPa", "atmosphere: [101.3 kPa]"},
		{"{level: 101.5 m}", "{}"},
		{"{level: 101.5 m}", "101.5 m"},
		{"sump:  {level", "the sump:  {level"},
		{"    units: 3\n", "    units: 3.5\n"},
		{"    units: 3\n", "    units: three\n"},
		{"    elevation: 102.0 m", "    elevation: 102.0"},
		{"    from: sump\n", ""},
		{"efficiency: 81 %}", "}"},
		{"efficiency: 81 %", "efficiency: 81 m"},
		{"[215 m3/h, 62 m]", "[215 m3/h]"},
		{"[215 m3/h, 62 m]", "[215, 62]"},
		{"inertia: 2.2 kg·m2", "inertia: 2.2 kg"},
		{"inertia: 2.2 kg·m2", "gd2: 8.8 kg·m2"},
		{"material: carbon steel}", "materiel: carbon steel}"},
		{"    bore: 700 mm\n", ""},
		{"    wall: 9.5 mm\n", ""},
		{"    bore: 700 mm\n", "    bore: 700 mm\n    size: DN700 STD\n"},
		{"    bore: 700 mm\n", "    bore: 700 mm\n    wave speed: 1000 m/s\n"},
		{"anchored throughout", "anchored everywhere"},
		{"type: swing,", "type: swinging,"},
		{"type: swing, size: DN250", "type: swing"},
		{"type: swing, size: DN250", "type: swing, size: 250"},
		{"type: swing, size: DN250", "type: swing, size: DN250, ring ratio: 0.6"},
		{"type: swing, size: DN250", "type: swing, size: DN250, travel: 20 mm"},
		{"type: swing, size: DN250", "type: swing, size: DN250, price: 2,5"},
		{"type: swing, size: DN250", "type: swing, size: DN250, hinge friction: 2 N"},
		{"{trip: lift, units: 1, at: 1 s}", "{trip: lift, units: 1}"},
		{"{trip: lift, units: 1, at: 1 s}", "{trip: lift, at: 1 s, over: 5 s}"},
		{"{trip: lift, units: 1, at: 1 s}", "{start: lift, at: 1 s}"},
		{"{trip: lift, units: 1, at: 1 s}", "{trip: lift, start: lift, at: 1 s, over: 2 s}"},
		{"surge allowance: 10 %", "surge allowance: 10 bar"},
		{"reverse velocity: 0.3 m/s", "reverse velocity: 0.3"},
		{"reverse velocity: 0.3 m/s", "revers velocity: 0.3 m/s"},
		{"limits:", "limit:"},
		{"limits:", "scenarios: {a: {set: [1]}}\nlimits:"},
		{"limits:", "economics: {years: 200}\nlimits:"},
		{"limits:", "air vessels: {a: {at: header, level: 1 m, volume: 2 m3, gas volume: 1 m3}}\nlimits:"},
		{"limits:", "valves: own.csv\nlimits:"},
	}
	for _, b := range broken {
		require.Equal(t, 1, min(1, strings.Count(text, b[0])), "%q is not in the case", b[0])
		changed := strings.Replace(text, b[0], b[1], 1)
		d, err := casefile.Read("case.yaml", []byte(changed), nil)
		if err == nil {
			_, err = d.Case()
		}
		require.Error(t, err, "%q", b[1])
		require.Error(t, cases.Validate(instance(t, changed)), "%q", b[1])
	}
}

// objects are all mappings with keys of their own in a schema, by their paths with * for names and rows.
func objects(s *jsonschema.Schema, path string, found map[string]*jsonschema.Schema) {
	if s == nil {
		return
	}
	if len(s.Properties) > 0 && found[path] == nil {
		found[path] = s
	}
	for key, p := range s.Properties {
		objects(p, strings.TrimPrefix(path+"."+key, "."), found)
	}
	for _, way := range s.AnyOf {
		objects(way, path, found)
	}
	if s.PropertyNames != nil {
		objects(s.AdditionalProperties, path+".*", found)
	}
	objects(s.Items, path+".*", found)
}

// TestSchemaHasTheKeysOfTheReader asks the reader itself, section by section, with a key that no section has: the keys that it says there are, are those
// of the schema.
func TestSchemaHasTheKeysOfTheReader(t *testing.T) {
	found := map[string]*jsonschema.Schema{}
	objects(casefile.Schema(casefile.CaseFile), "", found)
	require.Greater(t, len(found), 20)
	full := document(t, yamlBlocks(t)[0])
	const none = "qqqqqqqqqqqqqqqq"
	seen := map[string]bool{}
	told := func(doc *casefile.Document, at, value, pattern string) []string {
		d, err := doc.With(at, value)
		require.NoError(t, err)
		_, err = d.Case()
		var faults casefile.Errors
		require.ErrorAs(t, err, &faults, at)
		for _, f := range faults {
			if list, ok := strings.CutPrefix(f.Hint, "keys here: "); ok {
				seen[pattern] = true
				return strings.Split(list, ", ")
			}
		}
		require.Fail(t, "no list of keys", "%s: %v", at, err)
		return nil
	}
	for _, x := range []struct{ at, pattern string }{
		{"", ""}, {"fluid.", "fluid"}, {"reservoirs.sump.", "reservoirs.*"}, {"demands.village.", "demands.*"}, {"stations.lift.", "stations.*"}, {"stations.lift.pump.", "stations.*.pump"},
		{"stations.lift.pump.rated.", "stations.*.pump.rated"}, {"stations.lift.branch.", "stations.*.branch"}, {"pipes.rising-main.", "pipes.*"}, {"check valves.line-valve.", "check valves.*"}, {"stations.lift.upstream.", "stations.*.upstream"}, {"check valves.line-valve.upstream.", "check valves.*.upstream"},
		{"throttling valves.gate.", "throttling valves.*"}, {"run.", "run"}, {"limits.", "limits"}, {"duty.", "duty"}, {"service.", "service"}, {"economics.", "economics"}, {"scenarios.all-trip.", "scenarios.*"}, {"report.", "report"},
		{"air vessels.surge.", "air vessels.*"}, {"surge tanks.shaft.", "surge tanks.*"}, {"one-way tanks.feed.", "one-way tanks.*"}, {"relief valves.relief.", "relief valves.*"},
		{"rupture discs.disc.", "rupture discs.*"}, {"air valves.vent.", "air valves.*"}, {"orifices.plate.", "orifices.*"}, {"outlets.nozzle.", "outlets.*"},
	} {
		require.Contains(t, found, x.pattern)
		require.ElementsMatch(t, told(full, x.at+none, "1", x.pattern), found[x.pattern].PropertyOrder, "%s", x.pattern)
		require.Len(t, found[x.pattern].Properties, len(found[x.pattern].PropertyOrder))
	}
	keys := map[string]bool{"valve": true} // in place of the type
	short := document(t, lift(t))
	for _, family := range catalogue.Families() {
		for _, key := range told(short, "candidates.plain-swing", "{type: "+family.Name+", size: DN250, "+none+": 1}", "candidates.*") {
			keys[key] = true
		}
	}
	require.ElementsMatch(t, slices.Collect(maps.Keys(keys)), found["candidates.*"].PropertyOrder)
	delete(keys, "valve")
	for _, key := range told(full, "valves.old-swing."+none, "1", "valves.*") {
		require.Contains(t, found["valves.*"].PropertyOrder, key)
	}
	require.Subset(t, found["candidates.*"].PropertyOrder, found["valves.*"].PropertyOrder)
	clear(keys)
	for i := range 4 {
		for _, key := range told(full, fmt.Sprintf("events[%d].%s", i+1, none), "1", "events.*") {
			keys[key] = true
		}
	}
	require.ElementsMatch(t, slices.Collect(maps.Keys(keys)), found["events.*"].PropertyOrder)
	for pattern := range found {
		last := pattern[strings.LastIndexByte(pattern, '.')+1:]
		table := slices.Equal(found[pattern].PropertyOrder, []string{"columns", "rows"})
		require.True(t, seen[pattern] || table || last == "rule" || last == "slam classes" || strings.HasPrefix(pattern, "scenarios.*.events"), "no test asks for the keys of %q", pattern)
	}
}

// TestSchemaHasTheKeysInTheSource looks for keys in the source of the readers, where probing may not have come.
func TestSchemaHasTheKeysInTheSource(t *testing.T) {
	keys := map[string]bool{}
	found := map[string]*jsonschema.Schema{}
	objects(casefile.Schema(casefile.CaseFile), "", found)
	quotes := map[string]*jsonschema.Schema{}
	objects(casefile.Schema(casefile.OffersFile), "", quotes)
	for _, all := range []map[string]*jsonschema.Schema{found, quotes} {
		for _, s := range all {
			for key := range s.Properties {
				keys[key] = true
			}
		}
	}
	readers := map[string]bool{"take": true, "need": true, "quantity": true, "needQuantity": true, "positive": true, "needPositive": true, "text": true, "needText": true, "count": true, "choose": true,
		"items": true, "named": true, "table": true, "against": true, "amount": true, "upTo": true, "overOpening": true, "fitting": true, "has": true}
	names, err := filepath.Glob("*.go")
	require.NoError(t, err)
	asked := 0
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		require.NoError(t, err)
		ast.Inspect(file, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok || len(call.Args) == 0 {
				return true
			}
			method, ok := call.Fun.(*ast.SelectorExpr)
			literal, isText := call.Args[0].(*ast.BasicLit)
			if ok && isText && readers[method.Sel.Name] && literal.Kind == token.STRING {
				asked++
				key := strings.Trim(literal.Value, `"`)
				require.True(t, keys[key], "%s: the schema has no key %q", name, key)
			}
			return true
		})
	}
	require.Greater(t, asked, 100)
}

// TestSchemaIsNoStricterThanTheReader leaves keys out of a case that has all of them and moves others: what the reader takes, the schema takes.
func TestSchemaIsNoStricterThanTheReader(t *testing.T) {
	cases := resolved(t, casefile.CaseFile)
	taken, block := 0, yamlBlocks(t)[0]
	for seed := range uint64(40) {
		random := rand.New(rand.NewPCG(seed, 1))
		full := instance(t, block).(map[string]any)
		var places []map[string]any
		var walk func(v any)
		walk = func(v any) {
			switch v := v.(type) {
			case map[string]any:
				places = append(places, v)
				for _, key := range slices.Sorted(maps.Keys(v)) {
					walk(v[key])
				}
			case []any:
				for _, item := range v {
					walk(item)
				}
			}
		}
		walk(full)
		for range random.IntN(3) {
			from := places[random.IntN(len(places))]
			keys := slices.Sorted(maps.Keys(from))
			if len(keys) == 0 {
				continue
			}
			key := keys[random.IntN(len(keys))]
			if random.IntN(4) == 0 {
				raw, err := json.Marshal(from[key])
				require.NoError(t, err)
				var copied any
				require.NoError(t, json.Unmarshal(raw, &copied))
				places[random.IntN(len(places))][key] = copied
			} else {
				delete(from, key)
			}
		}
		raw, err := json.MarshalIndent(full, "", " ")
		require.NoError(t, err)
		d, err := casefile.Read("case.yaml", raw, nil)
		if err == nil {
			_, err = d.Case()
		}
		if err == nil {
			taken++
			require.NoError(t, cases.Validate(full))
		}
	}
	require.Greater(t, taken, 10)
}

// A file of valves has the keys that its reader says there are.
func TestSchemaOfValvesHasTheKeysOfTheReader(t *testing.T) {
	d, err := casefile.Read("case.yaml", []byte(ownCase(t)), folderWith(ownValves+"qqqqqqqq: 1\n", ownLoss).ReadFile)
	require.NoError(t, err)
	_, err = d.Case()
	require.ErrorContains(t, err, "keys here: "+strings.Join(casefile.Schema(casefile.ValvesFile).PropertyOrder, ", "))
	valves := resolved(t, casefile.ValvesFile)
	require.NoError(t, valves.Validate(instance(t, ownValves)))
	require.Error(t, valves.Validate(instance(t, strings.Replace(ownValves, "type: nozzle", "type: nozle", 1))))
	require.Error(t, valves.Validate(instance(t, lift(t))), "a case is no file of valves")
}

package casefile_test

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io/fs"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"seatwise/network/casefile"
)

// beside is a folder with one table.
func beside(name, text string) func(string) ([]byte, error) {
	return fstest.MapFS{name: {Data: []byte(text)}}.ReadFile
}

func TestCSVTable(t *testing.T) {
	want := read(t, lift(t)).Scenarios[0].Network.Stations[0].Pump.Curve
	for name, table := range map[string]string{
		"plain":        "flow m3/h, head m\n0, 66\n215, 62\n430, 52\n600, 39\n",
		"CRLF":         "flow m3/h,head m\r\n0,66\r\n215,62\r\n430,52\r\n600,39\r\n",
		"byte order":   "\uFEFFflow m3/h,head m\n0,66\n215,62\n430,52\n600,39",
		"comments":     "# from the data sheet\nflow m3/h, head m\n0, 66\n# duty\n215, 62\n430, 52\n\n600, 39\n",
		"other order":  "head m, flow m3/h\n66, 0\n62, 215\n52, 430\n39, 600\n",
		"semicolons":   "flow m3/h;head m\n0;66,0\n215,0;62\n430;52\n600;39\n",
		"points":       "flow m3/h;head m\r\n0;66.0\r\n215.0;62\r\n430;52\r\n600;39\r\n",
		"exported":     "\uFEFF\"flow [m3/h]\";\"head [m]\";;\r\n0;\"66,0\";;\r\n215;62;;\r\n430;52;;\r\n600;39;;\r\n;;;\r\n\r\n;;;\r\n",
		"empty cells":  "flow (m3/h), head (m),,\n0,66,,\n215,62,,\n430,52\n600,39,,,,\n,,,\n",
		"quoted heads": "\"flow m3/h\",\"head m\"\n0,66\n215,62\n430,52\n600,39\n",
	} {
		t.Run(name, func(t *testing.T) {
			text := replaced(t, curveLine, "      curve: tables/pump.csv\n")
			d, err := casefile.Read("lift-station.yaml", []byte(text), beside("tables/pump.csv", table))
			require.NoError(t, err)
			c, err := d.Case()
			require.NoError(t, err)
			require.Equal(t, want, c.Scenarios[0].Network.Stations[0].Pump.Curve)
			sum := sha256.Sum256([]byte(text + table))
			require.Equal(t, hex.EncodeToString(sum[:]), c.InputSHA256, "over every file read, in order")
		})
	}
}

func TestCSVMessages(t *testing.T) {
	for name, c := range map[string]struct{ table, want string }{
		"unknown column": {"flow m3/h, heat m\n0, 66\n", `tables/pump.csv:1:12: stations.lift.pump.curve: unknown column "heat m"
    1 | flow m3/h, heat m
      |            ^^^^^^
    hint: did you mean "head m"?`},
		"value": {"flow m3/h, head m\n0, 66\n215, 6,2\n430, fifty\n600, 039\n", `tables/pump.csv:3:1: stations.lift.pump.curve, row 2 has 3 values, the table has 2 columns
    3 | 215, 6,2
      | ^^^
    hint: commas divide the values here: if 6,2 is one number, write 6.2, or divide the columns by semicolons
tables/pump.csv:4:6: stations.lift.pump.curve, row 3[2]: a number is wanted at "fifty"
    4 | 430, fifty
      |      ^^^^^
    hint: e.g. 0.65
tables/pump.csv:5:6: stations.lift.pump.curve, row 4[2]: leading zero in a number
    5 | 600, 039
      |      ^^^
    hint: write 39`},
		"comma in a row": {"flow m3/h,head m\n0,66\n215,62,5\n", `tables/pump.csv:3:1: stations.lift.pump.curve, row 2 has 3 values, the table has 2 columns
    3 | 215,62,5
      | ^^^
    hint: commas divide the values here: if 215,62 is one number, write 215.62, or divide the columns by semicolons`},
		"comma and point": {"flow m3/h;head m\n0;66,5\n215.5;62\n", `tables/pump.csv:2:3: stations.lift.pump.curve: a comma here and a point in line 3: it cannot be told which marks the decimals
    2 | 0;66,5
      |   ^^^^
    hint: write all decimals alike, and no mark of thousands`},
		"two commas": {"flow m3/h;head m\n0;1,234,5\n", `tables/pump.csv:2:3: stations.lift.pump.curve, row 1[2]: comma in a number
    2 | 0;1,234,5
      |   ^^^^^^^
    hint: write 1234.5`},
		"tab": {"flow m3/h\thead m\n0\t66\n", `tables/pump.csv:1:10: a tab
    1 | flow m3/h head m
      |          ^
    hint: divide the columns by commas, or by semicolons`},
		"no unit": {"flow;head m\n0;66\n", `tables/pump.csv:1:1: stations.lift.pump.curve: column flow has no unit
    1 | flow;head m
      | ^^^^
    hint: write it like flow m3/h`},
		"gap": {"flow m3/h;head m\n0;66\n;\n430;\n", `tables/pump.csv:3:1: stations.lift.pump.curve, row 2[1] has no value
    3 | ;
      | ^
    hint: write the value, or take the row out
tables/pump.csv:4:5: stations.lift.pump.curve, row 3[2] has no value
    4 | 430;
      |     ^
    hint: write the value, or take the row out`},
		"beyond the heads": {"flow m3/h;head m;\n0;66;7\n", `tables/pump.csv:2:1: stations.lift.pump.curve, row 1 has 3 values, the table has 2 columns
    2 | 0;66;7
      | ^
    hint: write decimals with a point; give every row the same columns`},
		"empty": {"", `lift-station.yaml:20:14: stations.lift.pump.curve: the file tables/pump.csv is empty
   20 |       curve: tables/pump.csv
      |              ^^^^^^^^^^^^^^^
    hint: its first line names the columns: flow, head, [efficiency]`},
		"heads only": {"flow m3/h, head m\n", `lift-station.yaml:20:14: stations.lift.pump.curve has no rows
   20 |       curve: tables/pump.csv
      |              ^^^^^^^^^^^^^^^
    hint: write rows of flow, head, [efficiency]`},
		"quotes": {"flow m3/h, head m\n0, \"66\n", `tables/pump.csv:2:7: a quotation mark is out of place
    2 | 0, "66
      |       ^
    hint: write plain numbers divided by commas`},
		"order": {"head m, flow gpm\n66, 0\n52, 430\n62, 215\n39, 600\n", `tables/pump.csv:4:5: stations.lift.pump.curve[3][1]: flow does not increase: 215 gpm follows 430 gpm
    4 | 62, 215
      |     ^^^
    hint: sort the rows by flow and give each flow once`},
		"out of range": {"# of the data sheet\nflow m3/h, head ft, efficiency %\n0, 210, 0\n\n215, -200, 60\n430, 170, 108\n", `tables/pump.csv:5:6: stations.lift.pump.curve[2][2]: head is -200 ft
    5 | 215, -200, 60
      |      ^^^^
    hint: give zero or a value above it
tables/pump.csv:6:11: stations.lift.pump.curve[3][3]: efficiency is 108 %
    6 | 430, 170, 108
      |           ^^^
    hint: give 0 % to 100 %`},
		"step": {"flow m3/h, head m\n0, 66\n1e-6, 65\n430, 52\n", `tables/pump.csv:3:1: stations.lift.pump.curve[2]: the step in flow from the row before is 2.778e-10 m3/s
    3 | 1e-6, 65
      | ^^^^
    hint: flows must increase, by 1.194e-7 m3/s at least`},
		"not UTF-8": {"flow m3/h, head m\n0, 66 \xB0\n", `tables/pump.csv:2:7: the file is not UTF-8: byte 0xB0
    2 | 0, 66 ` + "\uFFFD" + `
      |       ^
    hint: save it as UTF-8`},
		"decimal comma": {"flow m3/h, head m\n0, 66\n\"215,5\", 62\n", `tables/pump.csv:3:1: stations.lift.pump.curve, row 2[1]: comma in a number
    3 | "215,5", 62
      | ^^^^^
    hint: write 215.5`},
	} {
		t.Run(name, func(t *testing.T) {
			d, err := casefile.Read("lift-station.yaml", []byte(replaced(t, curveLine, "      curve: tables/pump.csv\n")), beside("tables/pump.csv", c.table))
			require.NoError(t, err)
			_, err = d.Case()
			require.EqualError(t, err, c.want)
		})
	}
}

// So is a fault in rows under columns, and one in a table over the opening.
func TestFaultUnderColumns(t *testing.T) {
	require.Equal(t, `case.yaml:20:77: stations.lift.pump.curve[3][1]: flow does not increase: 430 m3/h follows 515 m3/h
   20 |       curve: {columns: [head m, flow m3/h], rows: [[66, 0], [62, 515], [52, 430]]}
      |                                                                             ^^^
    hint: sort the rows by flow and give each flow once`,
		complaint(replaced(t, curveLine, "      curve: {columns: [head m, flow m3/h], rows: [[66, 0], [62, 515], [52, 430]]}\n")))

	d, err := casefile.Read("case.yaml", []byte(replaced(t, "{type: swing, size: DN250}", "{type: swing, size: DN250, loss table: loss.csv}")),
		beside("loss.csv", "opening %, loss\n20, 30\n10, 0.7\n"))
	require.NoError(t, err)
	_, err = d.Case()
	require.EqualError(t, err, `loss.csv:3:1: candidates.plain-swing.loss table[2]: the opening does not increase
    3 | 10, 0.7
      | ^^
    hint: sort the rows by opening and give each once`)
}

func TestFileThatIsNotThere(t *testing.T) {
	text := replaced(t, curveLine, "      curve: tables/punp.csv\n")
	d, err := casefile.Read("lift-station.yaml", []byte(text), beside("tables/pump.csv", ""))
	require.NoError(t, err)
	_, err = d.Case()
	require.EqualError(t, err, `lift-station.yaml:20:14: stations.lift.pump.curve: cannot read the file "tables/punp.csv": open tables/punp.csv: file does not exist
   20 |       curve: tables/punp.csv
      |              ^^^^^^^^^^^^^^^
    hint: a table is a list of rows of flow, head, [efficiency], or a CSV file beside the case`)
}

// Whatever a case names, nothing outside its folder is opened.
func TestNoFileOutsideTheFolder(t *testing.T) {
	for _, name := range []string{"../pump.csv", "a/../../pump.csv", "/etc/pump.csv", `..\pump.csv`, "C:pump.csv", "./../pump.csv", "a/b/../../../pump.csv", "//host/pump.csv"} {
		opened := ""
		d, err := casefile.Read("lift-station.yaml", []byte(replaced(t, curveLine, "      curve: '"+name+"'\n")), func(path string) ([]byte, error) {
			opened = path
			return nil, errors.New("opened")
		})
		require.NoError(t, err)
		_, err = d.Case()
		require.Error(t, err)
		require.Empty(t, opened, name)
	}
	d, err := casefile.Read("lift-station.yaml", []byte(replaced(t, curveLine, "      curve: a/../b/./pump.csv\n")), func(path string) ([]byte, error) {
		require.True(t, fs.ValidPath(path))
		require.Equal(t, "b/pump.csv", path)
		return []byte("flow m3/h,head m\n0,66\n430,52\n"), nil
	})
	require.NoError(t, err)
	_, err = d.Case()
	require.NoError(t, err)
}

// A file is opened once, however often it is named.
func TestFileIsReadOnce(t *testing.T) {
	count := 0
	text := replaced(t, curveLine, "      curve: pump.csv\n", "limits:\n", "scenarios:\n  all: {events: [{trip: lift, units: 3, at: 1 s}]}\nlimits:\n")
	d, err := casefile.Read("lift-station.yaml", []byte(text), func(string) ([]byte, error) {
		count++
		return []byte("flow m3/h,head m\n0,66\n430,52\n"), nil
	})
	require.NoError(t, err)
	_, err = d.Case()
	require.NoError(t, err)
	_, err = d.Case()
	require.NoError(t, err)
	require.Equal(t, 1, count)
}

func TestHugeFiles(t *testing.T) {
	message := func(text string) string {
		_, err := casefile.Read("case.yaml", []byte(text), nil)
		require.Error(t, err)
		return err.Error()
	}
	require.Equal(t, "case.yaml: the file has 5242880 bytes, the limit is 4194304\n    hint: put fewer rows into its tables", message(strings.Repeat("#", 5<<20)))
	require.Equal(t, `case.yaml:20001:2: the file has more than 20000 keys
20001 | a: 1
      |  ^
    hint: put long tables into rows or CSV files`, message(strings.Repeat("a: 1\n", 30_000)))
	require.Equal(t, "case.yaml: the file is UTF-16, not UTF-8\n    hint: save it as UTF-8", message("\xFF\xFEf\x00"))
	require.Equal(t, "case.yaml: the file holds no case\n    hint: begin with format: 1", message("# nothing\n"))
	require.Equal(t, "case.yaml: the file holds no case\n    hint: begin with format: 1", message(""))
	require.Equal(t, `case.yaml:1:1: a case is keys with values, this is a list
    1 | - 1
      | ^
    hint: begin with format: 1`, message("- 1\n"))

	// A long survey is fine: 40 000 rows in the case itself, and in a file.
	var rows, table strings.Builder
	table.WriteString("chainage m, elevation m\n")
	for i := range 40_000 {
		rows.WriteString("      - [" + strconv.Itoa(i) + " m, 102 m]\n")
		table.WriteString(strconv.Itoa(i) + ", 102\n")
	}
	profile := "      - [0 m, 102 m]\n      - [133 m, 108 m]\n      - [415 m, 118 m]\n      - [600 m, 140 m]\n"
	require.Len(t, read(t, replaced(t, profile, rows.String())).Scenarios[0].Network.Pipes[0].Profile, 40_000)
	d, err := casefile.Read("case.yaml", []byte(replaced(t, "    profile:                        # chainage, elevation\n"+profile, "    profile: survey.csv\n")), beside("survey.csv", table.String()))
	require.NoError(t, err)
	c, err := d.Case()
	require.NoError(t, err)
	require.Len(t, c.Scenarios[0].Network.Pipes[0].Profile, 40_000)
}

func TestTooManyThings(t *testing.T) {
	var many strings.Builder
	for i := range 60 {
		many.WriteString("  swing-" + strconv.Itoa(i) + ": {type: swing, size: DN250}\n")
	}
	require.Equal(t, `case.yaml:91:3: more than 50 candidates
   91 |   swing-50: {type: swing, size: DN250}
      |   ^^^^^^^^
    hint: make a second case`, complaint(replaced(t, "candidates:\n", "candidates:\n"+many.String())))
}

func TestCaseNames(t *testing.T) {
	for file, want := range map[string]string{
		"lift-station.yaml": "lift-station", "a/b/c.yml": "c", `C:\cases\pump house.yaml`: "pump house", "plain": "plain", "-": "case", "": "case", ".yaml": "case", "a.b.yaml": "a.b",
	} {
		d, err := casefile.Read(file, []byte(lift(t)), nil)
		require.NoError(t, err)
		c, err := d.Case()
		require.NoError(t, err)
		require.Equal(t, want, c.Name, file)
	}
	_, err := casefile.Read("-", []byte("a: ["), nil)
	require.ErrorContains(t, err, "standard input:1:4: the [ is not closed")
}

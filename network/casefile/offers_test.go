package casefile_test

import (
	"crypto/sha256"
	"encoding/hex"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/examples"
	"seatwise/network/casefile"
	"seatwise/valve/choice"
)

const someOffers = `format: 1
title: Replies
currency: EUR
offers:
  A: {maker: "Fennimore & Daughters", model: Quietline, delivery: 14 weeks, type: nozzle, size: DN250, price amount: 11800, moving mass: 5.1 kg}
  B: {maker: Oxbow, type: axial spring, size: DN250}
`

// offering reads offers for the built-in example, changed where a passage is given.
func offering(t testing.TB, offers string, change ...string) (*choice.Case, *casefile.Offers, error) {
	text := lift(t)
	if len(change) == 2 {
		text = replaced(t, change[0], change[1])
	}
	d, err := casefile.Read("case.yaml", []byte(text), nil)
	require.NoError(t, err)
	if d, err = d.WithOffers("sub/offers.yaml", []byte(offers)); err != nil {
		return nil, nil, err
	}
	c, err := d.Case()
	if err != nil {
		return nil, nil, err
	}
	return c, d.Offers(), nil
}

func TestOffers(t *testing.T) {
	c, o, err := offering(t, someOffers)
	require.NoError(t, err)
	require.Equal(t, "lift-station", strings.ReplaceAll(c.Name, "case", "lift-station"))
	require.Len(t, c.Candidates, 2)
	require.Equal(t, "A", c.Candidates[0].Name)
	require.Equal(t, map[string]float64{"moving mass": 5.1}, c.Candidates[0].Set)
	require.Equal(t, "EUR", o.Currency)
	require.Equal(t, "Fennimore & Daughters", o.Replies[0].Maker)
	require.Equal(t, "14 weeks", o.Replies[0].Delivery)
	require.InDelta(t, 11800, *o.Replies[0].Price, 0)
	require.Nil(t, o.Replies[1].Price)
	sum := sha256.Sum256([]byte(lift(t) + someOffers))
	require.Equal(t, hex.EncodeToString(sum[:]), c.InputSHA256)

	// The case needs no candidates of its own, and its economics take the prices.
	c, _, err = offering(t, someOffers, "candidates:\n  plain-swing: {type: swing, size: DN250}\n  spring-disc: {type: axial spring, size: DN250}\n", "")
	require.NoError(t, err)
	require.Len(t, c.Candidates, 2)
	c, o, err = offering(t, strings.Replace(someOffers, "currency: EUR\n", "", 1), "limits:\n", "economics: {currency: GBP}\nlimits:\n")
	require.NoError(t, err)
	require.Equal(t, "GBP", o.Currency)
	require.InDelta(t, 11800, *c.Economics.Offers["A"].Price, 0)
}

func TestOffersMessages(t *testing.T) {
	for _, x := range []struct{ name, old, fresh, want string }{
		{"no maker", "maker: Oxbow, ", "", "sub/offers.yaml:6:3: offers.B: maker is missing"},
		{"misspelt key", "moving mass", "movin mass", "sub/offers.yaml:5:125: unknown key \"movin mass\" in offers.A"},
		{"no unit", "5.1 kg", "5.1", "offers.A.moving mass"},
		{"unknown type", "type: nozzle", "type: nozle", "did you mean \"nozzle\"?"},
		{"out of range", "5.1 kg", "5100000 kg", "offers.A.moving mass is 5100000 kg"},
		{"a name twice", "  B:", "  a:", "offers.a: the name is taken by offers.A"},
		{"no name", "  B:", "  B B:", "cannot be the name of a check valve"},
		{"unknown section", "currency: EUR", "currenzy: EUR", "unknown key \"currenzy\""},
		{"another format", "format: 1", "format: 2", "format 2 is not known"},
		{"no offers", "offers:", "replies:", "offers is missing in sub/offers.yaml"},
		{"a case", "currency: EUR", "stations: {}", "sub/offers.yaml is a case"},
		{"a reference", "type: axial spring, size: DN250", "valve: old", "unknown key \"valve\""},
		{"not a price", "11800", "11,800", "sub/offers.yaml:5"},
		{"data that no valve has", "moving mass: 5.1 kg", "kv: 2000 m3/h, loss when open: 2", "kv and loss when open say the same"},
	} {
		_, _, err := offering(t, strings.Replace(someOffers, x.old, x.fresh, 1))
		require.Error(t, err, x.name)
		require.Contains(t, err.Error(), x.want, x.name)
		require.Contains(t, err.Error(), "sub/offers.yaml", x.name)
		require.NotContains(t, err.Error(), "candidates.", x.name)
	}
	for _, text := range []string{"", "a", "- a", "format: 1", "\xff"} {
		_, _, err := offering(t, text)
		require.Error(t, err, text)
	}
	_, _, err := offering(t, someOffers, "limits:\n", "economics: {currency: GBP}\nlimits:\n")
	require.ErrorContains(t, err, "currency is EUR, the economics of the case are in GBP")
	_, _, err = offering(t, someOffers, "limits:\n", "offers: {}\nlimits:\n")
	require.ErrorContains(t, err, "offers stand in a file of their own")
}

// TestOffersOfExample: the offers that come with the program can be read.
func TestOffersOfExample(t *testing.T) {
	raw, err := examples.Files.ReadFile("offers/lift-station.yaml")
	require.NoError(t, err)
	c, o, err := offering(t, string(raw))
	require.NoError(t, err)
	require.Len(t, c.Candidates, len(o.Replies))
}

// FuzzOffers: whatever the bytes, there is a case or there are errors, and as many replies as candidates.
func FuzzOffers(f *testing.F) {
	raw, err := examples.Files.ReadFile("offers/lift-station.yaml")
	require.NoError(f, err)
	for _, text := range []string{string(raw), someOffers, "", "offers: [", "offers: {A: }", "offers: {A: {maker: {}}}", "format: 1\noffers: {A: {maker: M, type: swing, size: DN250, price amount: 1e400}}", "offers: {maker: M}", strings.ReplaceAll(someOffers, ":", "")} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		if len(raw) > 1<<14 {
			return
		}
		c, o, err := offering(t, string(raw))
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		require.Len(t, c.Candidates, len(o.Replies))
		for i, r := range o.Replies {
			require.Equal(t, c.Candidates[i].Name, r.Name)
			require.NotEmpty(t, r.Maker)
		}
	})
}

// TestOffersSchema: what can be read is valid, and what a schema can see to be wrong is not.
func TestOffersSchema(t *testing.T) {
	schema := resolved(t, casefile.OffersFile)
	raw, err := examples.Files.ReadFile("offers/lift-station.yaml")
	require.NoError(t, err)
	blocks := yamlBlocks(t)
	for _, text := range []string{string(raw), someOffers, blocks[len(blocks)-1]} {
		require.NoError(t, schema.Validate(instance(t, text)))
	}
	for _, x := range [][2]string{{"maker: Oxbow, ", ""}, {"moving mass", "movin mass"}, {"type: nozzle", "type: nozle"}, {"5.1 kg", "5.1"}, {"offers:", "candidates:"}, {"type: axial spring, size: DN250", "valve: old"}} {
		require.Error(t, schema.Validate(instance(t, strings.Replace(someOffers, x[0], x[1], 1))), x[1])
	}
}

package casefile

import (
	"fmt"
	"slices"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
	"seatwise/valve/offers"
)

// offersFile is a file of what makers offer for a case:
//
//	format: 1
//	title, note, currency    optional
//	offers                   name: maker, model, reference, date, delivery, note, and the keys of a candidate
//
// Its section takes the place of the candidates in the tree of the case, and keeps its own lines and columns.
type offersFile struct {
	name string
	raw  []byte
	root *node
}

// Offers are what makers have replied.
type Offers struct {
	Title    string
	Currency string // of the prices; that of the economics of the case where the file says none
	Replies  []offers.Reply
}

// offered is the section that stands in place of the candidates.
const offered = "offers"

// WithOffers is the document of the case with the offers of a file in place of its candidates. Name stands in messages. Tables in files of their own lie
// beside the case. An error is of type [Errors].
func (d *Document) WithOffers(name string, raw []byte) (*Document, error) {
	src, fault := newSource(name, "", raw)
	if fault != nil {
		return nil, Errors{fault}
	}
	root, errs := parse(src)
	if len(errs) > 0 {
		return nil, errs.sorted(name)
	}
	const begin = "a file of offers has format: 1, and below offers: the offers by a name, each with maker, type and size"
	if root.kind != mapping {
		what := "it is " + root.kind.String()
		if root.kind == empty {
			what = "it is empty"
		}
		return nil, Errors{{File: name, Msg: "this is no file of offers: " + what, Hint: begin}}
	}
	if p := root.get("stations"); p != nil {
		return nil, Errors{p.key.fault(name+" is a case: it has the section stations", "the case comes first, then the file of offers")}
	}
	p := root.get(offered)
	if p == nil {
		return nil, Errors{root.fault("offers is missing in "+name, begin)}
	}
	if q := d.root.get(offered); q != nil {
		return nil, Errors{q.key.fault(fmt.Sprintf("unknown key %s", quantity.Quote(offered)), "offers stand in a file of their own")}
	}
	grafted := *d.root
	grafted.keys, grafted.index = nil, nil
	put := false
	for _, k := range d.root.keys {
		if k.key.text == candidates {
			k, put = *p, true
		}
		grafted.add(k)
	}
	if !put {
		grafted.add(*p)
	}
	return newDocument(&Document{src: d.src, raw: d.raw, root: &grafted, open: d.open, own: d.own, overrides: slices.Clip(d.overrides), offers: &offersFile{name, raw, root}}), nil
}

// Offers are what the makers reply; nil for a document without. The case has to be without faults.
func (d *Document) Offers() *Offers { return d.reading().offers }

// offered reads what stands beside the offers in their file; nil without one. The prices are in one currency.
func (r *reader) offered(f *offersFile, e *choice.Economics) *Offers {
	if f == nil {
		return nil
	}
	s := &section{r: r, path: "", node: f.root, at: f.root}
	r.format(s)
	o := &Offers{}
	o.Title, _ = s.text("title")
	s.text("note")
	o.Currency, _ = s.text("currency")
	s.take(offered)
	s.done()
	o.Replies = r.replies
	switch {
	case e == nil:
	case o.Currency == "":
		o.Currency = e.Currency
	case e.Currency == "":
		e.Currency = o.Currency
	case o.Currency != e.Currency:
		r.errs = append(r.errs, f.root.get("currency").value.fault(fmt.Sprintf("currency is %s, the economics of the case are in %s", o.Currency, e.Currency), "give all amounts in one currency"))
	}
	return o
}

// reply reads what a maker says beside the data of the valve.
func (s *section) reply(name string) {
	r := offers.Reply{Name: name}
	r.Maker, _ = s.needText("maker", "the name of the maker")
	r.Model, _ = s.text("model")
	r.Reference, _ = s.text("reference")
	r.Date, _ = s.text("date")
	r.Delivery, _ = s.text("delivery")
	r.Note, _ = s.text("note")
	s.offer(name)
	r.Price = s.r.offers[name].Price
	s.r.replies = append(s.r.replies, r)
}

package casefile

// TitleBlock fills the boxes of a report's title block; "" leaves a box blank.
type TitleBlock struct {
	Project, Document, Revision, Date, Prepared, Checked string
}

// titleBlock reads the section report.
func (r *reader) titleBlock(root *section) TitleBlock {
	var b TitleBlock
	s := r.section(root.take("report"), "report")
	b.Project, _ = s.text("project")
	b.Document, _ = s.text("document")
	b.Revision, _ = s.text("revision")
	b.Date, _ = s.text("date")
	b.Prepared, _ = s.text("prepared")
	b.Checked, _ = s.text("checked")
	s.done()
	return b
}

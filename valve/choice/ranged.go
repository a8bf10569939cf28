package choice

import (
	"regexp"
	"strconv"
	"strings"
)

// figure is a number in a text that stands by itself: not a part of a name, nor the number of a unit.
var figure = regexp.MustCompile(`(^|[ (])(\d+(?:\.\d+)?)($|[ ),;])`)

// cut is a text without its figures, and these.
func cut(text string) (frame string, figures []string) {
	var b strings.Builder
	for {
		at := figure.FindStringSubmatchIndex(text)
		if at == nil {
			b.WriteString(text)
			return b.String(), figures
		}
		b.WriteString(text[:at[4]])
		if strings.HasSuffix(text[:at[4]], "unit ") {
			b.WriteString(text[at[4]:at[5]])
		} else {
			b.WriteByte(0)
			figures = append(figures, text[at[4]:at[5]])
		}
		text = text[at[5]:]
	}
}

// ranged writes texts of one frame as one: figures that differ as the range that they span.
func ranged(texts []string) string {
	frame, low := cut(texts[0])
	high := append([]string(nil), low...)
	for _, t := range texts[1:] {
		_, figures := cut(t)
		for i, x := range figures {
			if number(x) < number(low[i]) {
				low[i] = x
			}
			if number(x) > number(high[i]) {
				high[i] = x
			}
		}
	}
	for i := range low {
		text := low[i]
		if number(high[i]) != number(low[i]) {
			text += " to " + high[i]
		}
		frame = strings.Replace(frame, "\x00", text, 1)
	}
	return frame
}

func number(text string) float64 {
	x, _ := strconv.ParseFloat(text, 64) // of a figure, which is one
	return x
}

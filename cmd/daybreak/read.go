package main

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/unit"
)

// read turns a line into an answer, or says what would do.
func (t *talk) read(ctx context.Context, q *daybreakv1.Question, line string) (*daybreakv1.Answer, string, error) {
	a := &daybreakv1.Answer{Question: q.Id}
	problem := ""
	switch {
	case line == "-":
		a.Given = &daybreakv1.Answer_Unsure{Unsure: &daybreakv1.Unsure{}}
	case line == "s":
		a.Given = &daybreakv1.Answer_Skip{Skip: &daybreakv1.Skip{}}
	case q.Kind == daybreakv1.QuestionKind_QUESTION_KIND_VEHICLE:
		id, problem, err := t.vehicle(ctx, line)
		a.Given = &daybreakv1.Answer_Text{Text: id}
		return a, problem, err
	case q.Kind == daybreakv1.QuestionKind_QUESTION_KIND_POSTAL:
		a.Given = &daybreakv1.Answer_Text{Text: line}
	case q.Kind == daybreakv1.QuestionKind_QUESTION_KIND_NUMBER:
		var n *daybreakv1.Answer_Number
		if n, problem = readNumber(line); n != nil && inMoney(q) {
			toMinor(n.Number)
		}
		a.Given = n
	case q.Kind == daybreakv1.QuestionKind_QUESTION_KIND_HOUR:
		a.Given, problem = readHour(line)
	case q.Kind == daybreakv1.QuestionKind_QUESTION_KIND_SEVERAL:
		a.Given, problem = readSeveral(q, line)
	default:
		problem = t.readOne(a, q, line)
	}
	return a, problem, nil
}

// vehicle finds a car by its words. What reads like several cars is offered by
// number.
func (t *talk) vehicle(ctx context.Context, line string) (id, problem string, err error) {
	if n, err := strconv.Atoi(line); err == nil && n >= 1 && n <= len(t.offered) {
		return carID(t.offered[n-1]), "", nil
	}
	if len(line) > 80 {
		return "", "Type the car in fewer words.", nil
	}
	found, err := t.cars.SearchVehicles(ctx, &daybreakv1.SearchVehiclesRequest{Query: line, PageSize: 5})
	if err != nil {
		return "", "", err
	}
	if len(found.Vehicles) == 0 {
		return "", "No car on our list reads like that. Type its kind, such as small SUV, or - to go on without.", nil
	}
	t.offered = found.Vehicles
	if v := found.Vehicles[0]; carID(v) == line || len(found.Vehicles) == 1 {
		fmt.Fprintf(t.out, "  %s\n", v.Text)
		return carID(v), "", nil
	}
	fmt.Fprintln(t.out, "  Which of these is it?")
	for i, v := range found.Vehicles {
		fmt.Fprintf(t.out, "  %d  %s\n", i+1, v.Text)
	}
	return "", "Type its number, or the car again in other words.", nil
}

func carID(v *daybreakv1.CatalogueVehicle) string { return strings.TrimPrefix(v.Name, "vehicles/") }

// readNumber takes "40", "65 km", "about 40" and "30-50 ft".
func readNumber(line string) (*daybreakv1.Answer_Number, string) {
	const problem = "Type a number: 40. With its unit: 65 km. Roughly: about 40. Between two: 30-50."
	rest, about := strings.CutPrefix(line, "about ")
	value, unitWord, _ := strings.Cut(strings.TrimSpace(rest), " ")
	low, top, between := value, "", false
	if i := strings.LastIndexByte(value, '-'); i > 0 {
		low, top, between = value[:i], value[i+1:], true
	}
	n, err := strconv.ParseFloat(low, 64)
	if err != nil {
		return nil, problem
	}
	out := &daybreakv1.NumberAnswer{Value: n, Unit: strings.TrimSpace(unitWord), About: about}
	if between {
		high, err := strconv.ParseFloat(top, 64)
		if err != nil || about {
			return nil, problem
		}
		out.High = &high
	}
	return &daybreakv1.Answer_Number{Number: out}, ""
}

// inMoney reports whether a question's number is an amount, which people type
// in whole units and the contract counts in minor ones.
func inMoney(q *daybreakv1.Question) bool {
	return len(q.Limits) > 0 && q.Limits[0].Unit == "minor units"
}

// minorUnits is how many make one unit of the shop's currency, the US dollar.
//
// Source: ISO 4217.
const minorUnits = 100

func toMinor(n *daybreakv1.NumberAnswer) {
	n.Value = math.Round(n.Value * minorUnits)
	if n.High != nil {
		*n.High = math.Round(*n.High * minorUnits)
	}
}

// readHour takes "18", "18.5" and "18:30".
func readHour(line string) (*daybreakv1.Answer_Hour, string) {
	hours, minutes, colon := strings.Cut(line, ":")
	h, err := strconv.ParseFloat(hours, 64)
	if colon && err == nil {
		m, wrong := strconv.Atoi(minutes)
		if wrong != nil || m < 0 || m > 59 {
			return nil, "Type the hour of the day from 0 to 24, such as 18:30."
		}
		h += float64(m) / 60
	}
	if err != nil {
		return nil, "Type the hour of the day from 0 to 24, such as 18:30."
	}
	return &daybreakv1.Answer_Hour{Hour: h}, ""
}

func readSeveral(q *daybreakv1.Question, line string) (*daybreakv1.Answer_Choices, string) {
	var ids []string
	for _, field := range strings.FieldsFunc(line, func(r rune) bool { return r == ',' || r == ' ' }) {
		n, err := strconv.Atoi(field)
		if err != nil || n < 1 || n > len(q.Choices) {
			return nil, fmt.Sprintf("Type one or more numbers from 1 to %d, such as 1 3.", len(q.Choices))
		}
		if id := q.Choices[n-1].Id; !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	return &daybreakv1.Answer_Choices{Choices: &daybreakv1.ChoiceSet{Ids: ids}}, ""
}

// readOne takes the number of a choice. One that opens a number box asks for
// that number at once.
func (t *talk) readOne(a *daybreakv1.Answer, q *daybreakv1.Question, line string) (problem string) {
	n, err := strconv.Atoi(line)
	if err != nil || n < 1 || n > len(q.Choices) {
		return fmt.Sprintf("Type one number from 1 to %d.", len(q.Choices))
	}
	c := q.Choices[n-1]
	if c.Enter == nil {
		a.Given = &daybreakv1.Answer_Choice{Choice: c.Id}
		return ""
	}
	fmt.Fprintf(t.out, "  What number? (%s) > ", between([]*daybreakv1.NumberLimits{c.Enter}))
	if !t.in.Scan() {
		return ""
	}
	a.Given, problem = readNumber(strings.TrimSpace(t.in.Text()))
	return problem
}

// ways says how a question may be answered, under its words.
func ways(q *daybreakv1.Question) string {
	switch q.Kind {
	case daybreakv1.QuestionKind_QUESTION_KIND_VEHICLE:
		return "its name or kind, such as small SUV"
	case daybreakv1.QuestionKind_QUESTION_KIND_POSTAL:
		return "5 digits"
	case daybreakv1.QuestionKind_QUESTION_KIND_SEVERAL:
		return "one or more numbers, such as 1 3"
	case daybreakv1.QuestionKind_QUESTION_KIND_HOUR:
		return "an hour of the day, such as 18:30"
	case daybreakv1.QuestionKind_QUESTION_KIND_NUMBER:
		if inMoney(q) {
			return unit.Print(q.Limits[0].Low/minorUnits, 0) + " to " + unit.Print(q.Limits[0].High/minorUnits, 0) + " dollars"
		}
		return between(q.Limits)
	}
	return ""
}

// between says what a number may be, in each unit offered.
func between(limits []*daybreakv1.NumberLimits) string {
	all := make([]string, len(limits))
	for i, l := range limits {
		name := l.UnitText
		if i > 0 || name == "" {
			name = l.Unit // as it is to be typed
		}
		all[i] = strings.TrimSpace(unit.Print(l.Low, 3) + " to " + unit.Print(l.High, 3) + " " + name)
	}
	return strings.Join(all, ", or ")
}

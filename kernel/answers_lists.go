package kernel

import (
	"context"
	"strconv"

	"scarph/calc"
)

// WhatIfParams are the parameters of what_if: expressions by the names they are tried for.
type WhatIfParams struct {
	// Values is what is to be tried, by name: a number or any other expression.
	Values map[string]string `json:"values"`
}

func (d *Desk) whatIf(_ context.Context, r Request) (any, *Fault) {
	var p WhatIfParams
	if f := read(r, &p); f != nil {
		return nil, f
	}
	if len(p.Values) == 0 {
		return nil, wants(r, "values", `what_if takes {"values": {"beam": "4' 2\""}}`)
	}
	z, err := d.s.WhatIf(p.Values)
	if err != nil {
		text := ""
		for name, expr := range p.Values {
			if text = expr; err.Code == calc.CodeUnknownName {
				text = name
			}
			if len(p.Values) > 1 {
				text = "" // whose column it is cannot be told
			}
		}
		return nil, faultOf(err, text)
	}
	return ShapeOfRipple(z, d.s.UnmovedBy(z), d.s.Style()), nil
}

// RippleParams are the parameters of ripple.
type RippleParams struct {
	// Since is the number of a ripple, as an earlier answer gave it; 0 is when the kernel
	// began.
	Since *int `json:"since"`
}

// RippleResult answers ripple, and is told to subscribers. Ripple is what moved after
// the ripple with the number Since, up to the one with the number Number.
type RippleResult struct {
	Since  int         `json:"since"`
	Number int         `json:"number"`
	Ripple RippleShape `json:"ripple"`
}

func (d *Desk) ripple(_ context.Context, r Request) (any, *Fault) {
	var p RippleParams
	if f := read(r, &p); f != nil {
		return nil, f
	}
	if p.Since == nil {
		return nil, wants(r, "since, the number of a ripple", `ripple takes {"since": 0}`)
	}
	z, last, ok := d.log.Since(*p.Since)
	if !ok {
		return nil, &Fault{Code: FaultGone, Message: "ripple " + strconv.Itoa(*p.Since) + " is not kept", Hint: "the latest is " + strconv.Itoa(last) + "; ask for dimensions, and go on from there"}
	}
	return RippleResult{*p.Since, last, ShapeOfRipple(z, nil, d.s.Style())}, nil
}

// HistoryParams are the parameters of history.
type HistoryParams struct {
	// Name is the name of a value; without it, all that have had more than one reading.
	Name string `json:"name"`
	// AsOf is a date or the number of an entry.
	AsOf string `json:"as_of"`
}

// HistoryResult answers history.
type HistoryResult struct {
	Histories []HistoryShape `json:"histories"`
}

func (d *Desk) history(_ context.Context, r Request) (any, *Fault) {
	var p HistoryParams
	if f := read(r, &p); f != nil {
		return nil, f
	}
	at, err := d.s.OrderOf(p.AsOf)
	if err != nil {
		return nil, faultOf(err, p.AsOf)
	}
	list := d.s.Histories(at)
	if p.Name != "" {
		h, ok := d.s.History(p.Name, at)
		if !ok {
			return nil, d.unknown(p.Name)
		}
		list = []History{h}
	}
	z := HistoryResult{[]HistoryShape{}}
	for _, h := range list {
		z.Histories = append(z.Histories, ShapeOfHistory(h, d.s.Style()))
	}
	return z, nil
}

// DimensionsParams are the parameters of dimensions.
type DimensionsParams struct {
	// AsOf is a date or the number of an entry.
	AsOf string `json:"as_of"`
}

// DimensionsResult answers dimensions. Number is that of the latest ripple.
type DimensionsResult struct {
	Number     int              `json:"number"`
	Dimensions []DimensionShape `json:"dimensions"`
}

func (d *Desk) dimensions(_ context.Context, r Request) (any, *Fault) {
	var p DimensionsParams
	if f := read(r, &p); f != nil {
		return nil, f
	}
	at, err := d.s.OrderOf(p.AsOf)
	if err != nil {
		return nil, faultOf(err, p.AsOf)
	}
	z := DimensionsResult{d.log.Last(), []DimensionShape{}}
	for _, x := range d.s.Dimensions(at) {
		z.Dimensions = append(z.Dimensions, ShapeOfDimension(x, d.s.Style()))
	}
	return z, nil
}

// SubscribeResult answers subscribe and unsubscribe: ripples after Number are told.
type SubscribeResult struct {
	Number int `json:"number"`
}

func (d *Desk) subscribe(_ context.Context, r Request) (any, *Fault) { return d.setTold(r, true) }

func (d *Desk) unsubscribe(_ context.Context, r Request) (any, *Fault) { return d.setTold(r, false) }

func (d *Desk) setTold(r Request, told bool) (any, *Fault) {
	if f := read(r, &NoParams{}); f != nil {
		return nil, f
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	d.told = told
	return SubscribeResult{d.log.Last()}, nil
}

// InterruptParams are the parameters of interrupt: the id of a request, or nothing
// for all that run or wait.
type InterruptParams struct {
	// Request is the id of one of this client's requests, as a text; without it, all
	// that run or wait are stopped.
	Request string `json:"request"`
}

// InterruptResult answers interrupt.
type InterruptResult struct {
	Interrupted int `json:"interrupted"`
}

func (d *Desk) interrupt(_ context.Context, r Request) (any, *Fault) {
	var p InterruptParams
	if f := read(r, &p); f != nil {
		return nil, f
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	z := InterruptResult{}
	for _, j := range d.jobs {
		if j.m.name != "shutdown" && (p.Request == "" || p.Request == j.r.ID) {
			j.cancel()
			z.Interrupted++
		}
	}
	return z, nil
}

func (d *Desk) shutdown(_ context.Context, r Request) (any, *Fault) {
	return nil, read(r, &NoParams{})
}

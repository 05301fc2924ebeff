package pricing

import "slices"

// hours lists the labour, in the order of the job.
func (t *tally) hours() {
	if !t.work.hasLabour() {
		return
	}
	d, r := &t.work.Design, &t.work.Route
	t.task(taskMobilise, Quantity(t.work.Visits)*thousand, "", ruleHours)
	t.feederTasks(&d.Feeder)
	t.times(taskTandem, d.Tandems.Count)
	t.breakerTask(&d.Breaker)
	run := t.circuitRun()
	t.wiringTasks(&run)
	t.digTasks()
	t.times(taskOldCircuit, d.OldCircuits)
	t.terminationTask(d)
	t.once(taskReplaceReceptacle, d.Splices > 0 && d.Termination.Extent != NewReceptacle)
	t.equipmentTasks(d)
	t.once(taskDisconnect, d.Disconnect.Amps > 0)
	t.once(taskLoadSwitch, d.Management.Method == "load_switch" || d.Management.Method == "shared_circuit")
	t.once(taskLoadManage, d.Management.Method == "load_shed" || d.Management.Method == "measured_limit")
	t.serviceTask(&d.Service)
	t.times(taskDrillWood, r.WoodWalls)
	t.times(taskCoreMasonry, r.Masonry)
	t.times(taskFirestop, r.Firestops)
	t.times(taskAccessHole, r.AccessHoles)
	t.times(taskPatchHole, r.Patches)
	t.once(taskPermitVisit, t.work.Permits != 0 && t.place.permit.kind != "none")
}

func (t *tally) once(id taskID, needed bool) {
	if needed {
		t.task(id, thousand, "", ruleHours)
	}
}

func (t *tally) times(id taskID, n int) { t.task(id, Quantity(n)*thousand, "", ruleHours) }

func (t *tally) breakerTask(b *Breaker) {
	switch {
	case b.Amps == 0:
	case b.Form == "tandem" || b.Form == "quad":
		t.times(taskTandem, 1)
	case b.Protection != Standard:
		t.times(taskBreakerGFCI, 1)
	case b.Poles == 1:
		t.times(taskBreaker1P, 1)
	case b.Amps > 60:
		t.times(taskBreakerLarge, 1)
	default:
		t.times(taskBreaker2P, 1)
	}
}

// tens counts a length in units of 10 ft.
func tens(milliFeet int64) Quantity { return Quantity((milliFeet + 5) / 10) }

func (t *tally) wiringTasks(r *run) {
	for i := range r.wirings {
		s := t.stretch(r, i)
		switch s.Method {
		case NMB, UFB, MC, SER, MHF:
			t.cableTasks(r, i, &s)
		case EMT:
			t.racewayTasks(&s, taskEMTSmall, taskEMTLarge)
			t.times(taskEMTBend, s.QuarterBends)
			t.pull(&s)
		case RMC:
			t.racewayTasks(&s, taskRMC, taskRMC)
			t.pull(&s)
		case PVC40, PVC80:
			t.task(taskPVCTrench, tens(s.trench()), "", ruleHours)
			t.task(taskPVCExposed, tens(s.exposed()), "", ruleHours)
			t.pull(&s)
		case FMC, LFMC:
			// A whip is made up with its wires, in lengths to 6 ft.
			t.times(taskWhip, int(ceilDiv(s.length+s.drops, 6*thousand)))
		}
	}
}

// racewayTasks bills a raceway by the length hung, small to trade size 1.
func (t *tally) racewayTasks(s *stretch, small, large taskID) {
	id := small
	if slices.Index(tradeSizes, s.TradeSize) > slices.Index(tradeSizes, "1") {
		id = large
	}
	t.task(id, tens(s.length+s.drops), "", ruleHours)
}

// cableTasks bills cable by what it runs through; the drops go with the first
// segment, or with the sleeve of a buried cable.
func (t *tally) cableTasks(r *run, wiring int, s *stretch) {
	lengths := s.byKind
	first := SegmentKind(max(s.first, 0))
	if s.sleeved() {
		t.task(taskPVCExposed, tens(s.drops), "", ruleHours)
	} else if first.trench() {
		lengths[Open] += s.drops
	} else {
		lengths[first] += s.drops
	}
	size := sizeCondition(s.Cable.Size)
	var done [segmentKinds]bool
	bill := func(k SegmentKind) {
		if done[k] || lengths[k] == 0 {
			return
		}
		done[k] = true
		t.task(cableTask(s.Method, k), tens(lengths[k]), size, ruleHours)
	}
	bill(first)
	for j := range r.segments {
		if g := &r.segments[j]; g.Wiring == wiring {
			bill(g.Kind)
		}
	}
	bill(Open)
}

func cableTask(m Method, k SegmentKind) taskID {
	switch {
	case k.trench():
		return taskCableTrench
	case k == Fished:
		return taskNMFish
	case k == Attic:
		return taskNMAttic
	case k == Crawl:
		return taskNMCrawl
	case m == MC:
		return taskMCSurface
	}
	return taskNMOpen
}

// sizeCondition is the factor that a cable's size makes.
func sizeCondition(size string) Condition {
	switch size {
	case "14", "12", "10":
		return "size.14_10"
	case "8":
		return "size.8"
	case "6":
		return "size.6"
	}
	return "size.4_and_larger"
}

// pull bills the whole set of conductors by its largest.
func (t *tally) pull(s *stretch) {
	largest := -1
	for _, c := range s.Conductors {
		largest = max(largest, slices.Index(wireSizes, c.Size))
	}
	id := taskPullSmall
	switch {
	case largest < 0:
		return
	case largest >= slices.Index(wireSizes, "1/0"):
		id = taskPullFeeder
	case largest >= slices.Index(wireSizes, "6"):
		id = taskPullLarge
	}
	t.task(id, tens(s.length+s.drops), "", ruleHours)
}

func (t *tally) digTasks() {
	var feet [segmentKinds]int64
	for _, list := range t.dug() {
		for _, s := range list {
			if s.Kind.trench() {
				feet[s.Kind] += milli(s.Feet)
			}
		}
	}
	for k := TrenchLawn; k < segmentKinds; k++ {
		if feet[k] > 0 {
			t.task(diggings[k].task, Quantity(feet[k]), "", ruleHours)
		}
	}
}

func (t *tally) terminationTask(d *Design) {
	e := &d.Termination
	switch {
	case e.Receptacle == "" || e.Extent == KeepOutlet:
	case e.Extent == NewReceptacle:
		t.times(taskReplaceReceptacle, 1)
	case small(e.Receptacle):
		t.times(taskReceptacle20, 1)
	default:
		t.times(taskReceptacle50, 1)
	}
}

func (t *tally) equipmentTasks(d *Design) {
	switch d.Equipment.Mount {
	case MountPlug:
		t.times(taskEVSEPlug, 1)
	case MountHardwired:
		t.times(taskEVSEHardwired, 1)
	case MountPedestal:
		t.times(taskEVSEPedestal, 1)
	}
	t.once(taskCommission, d.Equipment.Mount != NoMount || d.Commission)
}

// feederTasks bills a feeder from its breaker to the board, the circuits that
// go over to it and its electrodes.
func (t *tally) feederTasks(f *Feeder) {
	if f.none() {
		return
	}
	t.breakerTask(&f.Breaker)
	r := t.feederRun()
	t.wiringTasks(&r)
	t.once(taskSubpanel, f.Board.Amps > 0)
	t.times(taskMoveCircuit, len(f.Moved)+len(f.Refed))
	t.electrodeTasks(&f.Electrodes)
}

// electrodeTasks bills rods by the pair.
func (t *tally) electrodeTasks(e *Electrodes) {
	t.task(taskRods, Quantity(e.Rods)*thousand/2, "", ruleHours)
	t.times(taskBond, e.WaterPipes+e.GasPipes)
}

func (t *tally) serviceTask(s *Service) {
	switch {
	case s.To == 0:
		return
	case s.From == s.To:
		t.times(taskSwap, 1)
	case s.To > 200:
		t.times(taskServiceLarge, 1)
	case s.Feed == "ug":
		t.times(taskServiceUnderground, 1)
	default:
		t.times(taskServiceOverhead, 1)
	}
	t.once(taskDisconnect, s.EmergencyDisconnect)
	t.once(taskSurge, s.Surge)
	t.electrodeTasks(&s.Electrodes)
	// A small check book has no hours for the utility; a complete one must.
	t.once(taskUtility, t.book.labour.byID[taskUtility] >= 0)
}

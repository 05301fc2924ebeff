package charging

import "daybreak/internal/working"

// Sources of the rules below; never changed.
var (
	continuousLoad    = &working.Source{Publication: "NEC", Section: "625.41, 625.42", Status: working.FromMemory}
	powerOfCurrent    = &working.Source{Publication: "SAE J1772", Section: "AC Level 1 and AC Level 2", Status: working.FromMemory}
	labelRate         = &working.Source{Publication: "40 CFR 600.311-12", Section: "(c)(3), energy consumption rate", Status: working.Verified}
	level1Study       = &working.Source{Publication: "An Assessment of Level 1 and Level 2 Electric Vehicle Charging Efficiency", Section: "Level 2 advantage of 3 % to 13 %", Status: working.Judgement}
	lossModel         = &working.Source{Publication: "A comparison of electric vehicle Level 1 and Level 2 charging efficiency (IEEE SusTech 2014)", Section: "fitted: 0.93 of the power above 0.15 kW", Status: working.FromMemory}
	taperModel        = &working.Source{Publication: "constant-voltage phase at AC power", Section: "acceptance falls above 92 % of usable energy", Status: working.Judgement}
	coldModel         = &working.Source{Publication: "battery heating while charging", Section: "1 to 4 kWh a start below 20 °F", Status: working.Judgement}
	dayModel          = &working.Source{Publication: "On the distribution of individual daily driving distances (Transportation Research Part B, 2017)", Section: "lognormal days", Status: working.FromMemory}
	equalSplit        = &working.Source{Publication: "NEC", Section: "625.42(A), load management", Status: working.FromMemory}
	fastModel         = &working.Source{Publication: "DC charging from 10 % to 80 %", Section: "average over peak power 0.55 to 0.75", Status: working.FromMemory}
	preconditionModel = &working.Source{Publication: "warming the cabin at the plug", Section: "1.0 kWh at 32 °F, 1.8 at 14 °F, 2.6 at −4 °F", Status: working.FromMemory}
	plugFaces         = &working.Source{Publication: "ANSI/NEMA WD 6", Section: "configurations of plugs and receptacles; NEC 406.4, 625.44", Status: working.FromMemory}
)

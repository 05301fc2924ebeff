package panel

import "go.yaml.in/yaml/v3"

// methodsDoc is methods.yaml as it is written.
type methodsDoc struct {
	Publication string `yaml:"publication"`
	Editions    []int  `yaml:"editions"`
	Deciding    struct {
		Whole  yaml.Node `yaml:"whole_dwelling"`
		Part   yaml.Node `yaml:"part_of_dwelling"`
		Mobile yaml.Node `yaml:"mobile_home"`
	} `yaml:"deciding"`
	Rounding cite `yaml:"rounding"`
	Lighting struct {
		cite    `yaml:",inline"`
		PerSqFt since[float64] `yaml:"va_per_sqft"`
	} `yaml:"general_lighting"`
	Small struct {
		cite  `yaml:",inline"`
		VA    since[float64] `yaml:"va_per_circuit"`
		Least since[float64] `yaml:"min_circuits"`
	} `yaml:"small_appliance"`
	Laundry struct {
		cite `yaml:",inline"`
		VA   since[float64] `yaml:"va_per_circuit"`
	} `yaml:"laundry"`
	Tiers struct {
		cite       `yaml:",inline"`
		First      since[float64] `yaml:"first_va"`
		NextTo     since[float64] `yaml:"next_to_va"`
		NextFactor since[float64] `yaml:"next_factor"`
		RestFactor since[float64] `yaml:"rest_factor"`
	} `yaml:"lighting_demand"`
	Fastened struct {
		cite   `yaml:",inline"`
		Least  since[float64] `yaml:"min_count"`
		Factor since[float64] `yaml:"factor"`
		MinVA  since[float64] `yaml:"min_va"`
	} `yaml:"fastened"`
	Dryer struct {
		cite  `yaml:",inline"`
		MinVA since[float64]     `yaml:"min_va"`
		Rows  since[[][]float64] `yaml:"rows"`
	} `yaml:"dryer"`
	Cooking struct {
		cite   `yaml:",inline"`
		Least  since[float64]     `yaml:"least_kw"`
		ABelow since[float64]     `yaml:"a_below_kw"`
		BTo    since[float64]     `yaml:"b_to_kw"`
		CTo    since[float64]     `yaml:"c_to_kw"`
		Raise  since[float64]     `yaml:"raise_per_kw"`
		Rows   since[[][]float64] `yaml:"rows"`
	} `yaml:"cooking"`
	General       cite `yaml:"general"`
	Heating       cite `yaml:"space_heating"`
	Noncoincident struct {
		cite   `yaml:",inline"`
		Lesser since[float64] `yaml:"lesser_cooling_factor"`
	} `yaml:"noncoincident"`
	Motors struct {
		cite  `yaml:",inline"`
		Adder since[float64] `yaml:"largest_adder"`
	} `yaml:"motors"`
	Neutral struct {
		cite   `yaml:",inline"`
		Factor since[float64] `yaml:"cooking_dryer_factor"`
	} `yaml:"neutral"`
	Charger struct {
		cite    `yaml:",inline"`
		MinVA   since[float64] `yaml:"min_va"`
		Unknown since[float64] `yaml:"unknown_va"`
		Bracket since[float64] `yaml:"bracket"`
	} `yaml:"charger"`
	Continuous struct {
		cite   `yaml:",inline"`
		Factor since[float64] `yaml:"factor"`
	} `yaml:"continuous"`
	Setting struct {
		cite     `yaml:",inline"`
		Counts   since[string]    `yaml:"counts"`
		Standard since[[]float64] `yaml:"standard_a"`
		Fine     since[[]float64] `yaml:"fine_a"`
	} `yaml:"setting"`
	Optional struct {
		cite      `yaml:",inline"`
		Service   since[float64] `yaml:"min_service_a"`
		First     since[float64] `yaml:"first_va"`
		Rest      since[float64] `yaml:"rest_factor"`
		Strips    since[float64] `yaml:"strips_factor"`
		Few       since[float64] `yaml:"few_units_factor"`
		Many      since[float64] `yaml:"many_units_factor"`
		ManyUnits since[float64] `yaml:"many_units"`
	} `yaml:"optional_82"`
	Existing struct {
		cite      `yaml:",inline"`
		Added     since[string]  `yaml:"section_added"`
		Careful   since[float64] `yaml:"careful_va_per_sqft"`
		First     since[float64] `yaml:"first_va"`
		Rest      since[float64] `yaml:"rest_factor"`
		ManyUnits since[float64] `yaml:"many_units"`
	} `yaml:"existing_83"`
	Measured struct {
		cite        `yaml:",inline"`
		Factor      since[float64]     `yaml:"factor"`
		PowerFactor since[float64]     `yaml:"power_factor"`
		Intervals   since[[][]float64] `yaml:"intervals"`
		Barred      since[string]      `yaml:"barred_by_source"`
	} `yaml:"measured_87"`
	Mobile struct {
		cite    `yaml:",inline"`
		PerSqFt since[float64]     `yaml:"va_per_sqft"`
		First   since[float64]     `yaml:"first_va"`
		Rest    since[float64]     `yaml:"rest_factor"`
		Ranges  since[[][]float64] `yaml:"range_rows"`
	} `yaml:"mobile_550_18"`
	Multifamily struct {
		cite  `yaml:",inline"`
		Least since[float64]     `yaml:"min_units"`
		Rows  since[[][]float64] `yaml:"rows"`
	} `yaml:"multifamily_84"`
	TwoFamily cite `yaml:"two_family_85"`
	Capacity  cite `yaml:"capacity"`
	Service   struct {
		cite      `yaml:",inline"`
		OneFamily since[float64]   `yaml:"one_family_min_a"`
		Finding   since[float64]   `yaml:"finding_a"`
		Upgrades  since[[]float64] `yaml:"upgrade_a"`
	} `yaml:"service"`
	Conductors struct {
		cite   `yaml:",inline"`
		Factor since[float64] `yaml:"factor"`
		Rows   [][]string     `yaml:"rows"`
	} `yaml:"service_conductors"`
	Devices struct {
		cite `yaml:",inline"`
		Amps since[[]float64] `yaml:"a"`
	} `yaml:"devices"`
	Feeder cite `yaml:"feeder"`
	Bus    struct {
		cite          `yaml:",inline"`
		Sum100        since[string]  `yaml:"section_sum_100"`
		SumOfBreakers since[string]  `yaml:"section_sum_of_breakers"`
		Source        since[float64] `yaml:"source_factor"`
		FarEnd        since[float64] `yaml:"far_end_factor"`
	} `yaml:"bus"`
	Management struct {
		cite   `yaml:",inline"`
		Factor since[float64] `yaml:"setpoint_factor"`
	} `yaml:"management"`
	Screen struct {
		cite    `yaml:",inline"`
		Service since[float64] `yaml:"min_service_a"`
		Charger since[float64] `yaml:"max_charger_a"`
		Spare   since[float64] `yaml:"min_spare_share"`
		Unseen  since[float64] `yaml:"unseen_spare_share"`
	} `yaml:"screen"`
	Spaces   cite `yaml:"spaces"`
	Sharing  cite `yaml:"sharing_switch"`
	Upgrade  cite `yaml:"upgrade"`
	NewBoard cite `yaml:"new_panelboard"`
	Welder   struct {
		cite `yaml:",inline"`
		Rows since[[][]float64] `yaml:"rows"`
	} `yaml:"welder"`
}

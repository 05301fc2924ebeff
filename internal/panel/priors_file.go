package panel

type serviceTable struct {
	Amps   []float64   `yaml:"amps"`
	Shares [][]float64 `yaml:"shares"`
}

// byDwelling is a share for each kind of home.
type byDwelling struct {
	House  float64 `yaml:"house"`
	Row    float64 `yaml:"row"`
	Flat   float64 `yaml:"flat"`
	Mobile float64 `yaml:"mobile"`
	Other  float64 `yaml:"other"`
}

func (b byDwelling) of(d Dwelling) float64 {
	return [...]float64{b.House, b.Row, b.Flat, b.Mobile, b.Other}[min(d, OtherDwelling)]
}

type byEra struct {
	Status string    `yaml:"status"`
	ByEra  []float64 `yaml:"by_era"`
}

type priorsDoc struct {
	Eras []struct {
		Name   string  `yaml:"name"`
		Before int     `yaml:"before"`
		Stock  float64 `yaml:"stock"`
	} `yaml:"eras"`
	Service struct {
		Status string       `yaml:"status"`
		House  serviceTable `yaml:"house"`
		Row    serviceTable `yaml:"row"`
		Flat   serviceTable `yaml:"flat"`
		Mobile serviceTable `yaml:"mobile"`
		Shift  struct {
			Heat       float64 `yaml:"electric_heat_200_up"`
			Large      float64 `yaml:"large_home_200_up"`
			Small      float64 `yaml:"small_home_100_down"`
			Source     float64 `yaml:"source_200"`
			California float64 `yaml:"california_100"`
			Spa        float64 `yaml:"spa_or_pool_200"`
		} `yaml:"shift"`
	} `yaml:"service_amps"`
	Fuel struct {
		Status  string     `yaml:"status"`
		Heat    zoneValues `yaml:"electric_main_heat"`
		Water   zoneValues `yaml:"electric_water_heating"`
		Cooking zoneValues `yaml:"electric_cooking_any"`
		Cooling zoneValues `yaml:"air_conditioning"`
		ByEra   []float64  `yaml:"heat_odds_by_era"`
	} `yaml:"fuel"`
	Heat struct {
		Status string    `yaml:"status"`
		Strips float64   `yaml:"strips_given_heat_pump"`
		Cold   []float64 `yaml:"very_cold_cold"`
		Mixed  []float64 `yaml:"mixed_humid"`
		Dry    []float64 `yaml:"mixed_dry_hot_dry"`
		Hot    []float64 `yaml:"hot_humid"`
		Marine []float64 `yaml:"marine"`
		Any    []float64 `yaml:"unknown"`
	} `yaml:"heat"`
	Cooling struct {
		Status  string  `yaml:"status"`
		Window  float64 `yaml:"window"`
		Central float64 `yaml:"central"`
		Mini    float64 `yaml:"mini"`
	} `yaml:"cooling"`
	Dryer struct {
		Status   string       `yaml:"status"`
		Have     float64      `yaml:"have"`
		Electric regionValues `yaml:"electric"`
	} `yaml:"dryer"`
	Loads struct {
		Status  string  `yaml:"status"`
		Pool    float64 `yaml:"pool_pump"`
		Spa     float64 `yaml:"spa"`
		Well    float64 `yaml:"well_pump"`
		Sauna   float64 `yaml:"sauna"`
		Welder  float64 `yaml:"welder"`
		Charger float64 `yaml:"evse_existing"`
	} `yaml:"loads"`
	Tankless float64 `yaml:"tankless_given_electric_water"`
	Source   struct {
		Status string       `yaml:"status"`
		Solar  regionValues `yaml:"solar"`
		Kinds  []float64    `yaml:"kinds"`
	} `yaml:"source"`
	FreePair struct {
		byEra     `yaml:",inline"`
		ByService [][]float64 `yaml:"by_service"`
		Tandem    float64     `yaml:"tandem_given_none"`
	} `yaml:"free_pair"`
	FreeSpaces struct {
		Status  string    `yaml:"status"`
		Pair    []float64 `yaml:"with_pair"`
		Without []float64 `yaml:"without"`
	} `yaml:"free_spaces"`
	Fuses   byEra `yaml:"fuses"`
	Failure byEra `yaml:"failure_list"`
	Wye     struct {
		Status     string `yaml:"status"`
		byDwelling `yaml:",inline"`
	} `yaml:"supply_208"`
	OutletNear struct {
		Status     string `yaml:"status"`
		byDwelling `yaml:",inline"`
	} `yaml:"outlet_near"`
	LargeOutlet struct {
		Status     string `yaml:"status"`
		byDwelling `yaml:",inline"`
		Garage     []float64  `yaml:"attached_garage_by_era"`
		Kinds      [][]string `yaml:"kinds"`
	} `yaml:"large_outlet"`
	Parking struct {
		Status string      `yaml:"status"`
		Rows   [][]float64 `yaml:"rows"`
	} `yaml:"panel_to_parking"`
	Aluminium struct {
		Status string  `yaml:"status"`
		Share  float64 `yaml:"share"`
		From   int     `yaml:"from"`
		To     int     `yaml:"to"`
	} `yaml:"aluminium_branch"`
}

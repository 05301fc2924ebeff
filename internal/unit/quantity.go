package unit

import (
	"math"
	"strconv"
)

type (
	// Amps is an electric current in amperes.
	Amps float64
	// Volts is an electric potential difference in volts.
	Volts float64
	// Watts is real power in watts.
	Watts float64
	// VoltAmps is apparent power in volt-amperes, the unit of load calculations.
	VoltAmps float64
	// Kilowatts is real power in kilowatts.
	Kilowatts float64
	// KilowattHours is energy in kilowatt-hours.
	KilowattHours float64
	// Feet is a length in international feet.
	Feet float64
	// Inches is a length in inches.
	Inches float64
	// Miles is a distance in statute miles.
	Miles float64
	// Hours is a duration in hours.
	Hours float64
	// Celsius is a temperature in degrees Celsius.
	Celsius float64
	// Fahrenheit is a temperature in degrees Fahrenheit.
	Fahrenheit float64
	// SquareFeet is an area in square feet.
	SquareFeet float64
)

const (
	// KilometresPerMile is exact (international yard and pound agreement, 1959).
	KilometresPerMile = 1.609344
	// MetresPerFoot is exact (international yard and pound agreement, 1959).
	MetresPerFoot = 0.3048
)

// Celsius converts to degrees Celsius.
func (f Fahrenheit) Celsius() Celsius { return Celsius((f - 32) * 5 / 9) }

// Fahrenheit converts to degrees Fahrenheit.
func (c Celsius) Fahrenheit() Fahrenheit { return Fahrenheit(c*9/5 + 32) }

// Kilowatts converts watts to kilowatts.
func (w Watts) Kilowatts() Kilowatts { return Kilowatts(w / 1000) }

// Times gives the power of a current at a voltage, power factor one.
func (a Amps) Times(v Volts) VoltAmps { return VoltAmps(float64(a) * float64(v)) }

// At gives the current that an apparent power draws at a voltage.
func (va VoltAmps) At(v Volts) Amps { return Amps(float64(va) / float64(v)) }

// Finite reports whether x is a number an engine may work with: not NaN and
// not infinite.
func Finite[T ~float64](x T) bool {
	return !math.IsNaN(float64(x)) && !math.IsInf(float64(x), 0)
}

// Print renders a quantity with at most the given number of decimals and no
// trailing zeros, the one form used in canonical bodies on every platform.
func Print[T ~float64](x T, decimals int) string {
	s := strconv.FormatFloat(float64(x), 'f', decimals, 64)
	if decimals > 0 {
		i := len(s)
		for i > 0 && s[i-1] == '0' {
			i--
		}
		if i > 0 && s[i-1] == '.' {
			i--
		}
		s = s[:i]
	}
	if s == "-0" {
		return "0"
	}
	return s
}

package facts

// Connection is whether equipment should plug in or be wired in. Zero is no word at all.
type Connection uint8

const (
	ConnectionPlug Connection = iota + 1
	ConnectionWired
	ConnectionAny
)

var connectionWords = []string{
	"plug", "wired", "any",
}

// String is the word itself.
func (v Connection) String() string { return wordAt(connectionWords, uint8(v)) }

// SecondVehicleWish is whether a second electric car will charge here. Zero is no word at all.
type SecondVehicleWish uint8

const (
	SecondVehicleWishNo SecondVehicleWish = iota + 1
	SecondVehicleWishLater
	SecondVehicleWishNow
)

var secondVehicleWishWords = []string{
	"no", "later", "now",
}

// String is the word itself.
func (v SecondVehicleWish) String() string { return wordAt(secondVehicleWishWords, uint8(v)) }

// NetworkWish is whether charging should be seen and set from a phone. Zero is no word at all.
type NetworkWish uint8

const (
	NetworkWishYes NetworkWish = iota + 1
	NetworkWishNo
	NetworkWishAny
)

var networkWishWords = []string{
	"yes", "no", "any",
}

// String is the word itself.
func (v NetworkWish) String() string { return wordAt(networkWishWords, uint8(v)) }

// Timing is when it must work. Zero is no word at all.
type Timing uint8

const (
	TimingNow Timing = iota + 1
	TimingMonth
	TimingSeason
	TimingLooking
)

var timingWords = []string{
	"now", "month", "season", "looking",
}

// String is the word itself.
func (v Timing) String() string { return wordAt(timingWords, uint8(v)) }

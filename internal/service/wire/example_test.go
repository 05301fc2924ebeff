package wire_test

import (
	"fmt"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/service/wire"

	"google.golang.org/protobuf/proto"
)

// Facts are read leaf by leaf; what is refused is named by its path.
func Example() {
	told, err := wire.Facts("facts", &daybreakv1.Facts{Panel: &daybreakv1.Panel{ServiceAmps: proto.Float64(200)}})
	amps, known := told.Panel.ServiceAmps.Get()
	fmt.Println(amps, known, err)
	_, err = wire.Facts("facts", &daybreakv1.Facts{Panel: &daybreakv1.Panel{ServiceAmps: proto.Float64(20000)}})
	fmt.Println(err)
	// Output:
	// 200 true <nil>
	// facts.panel.service_amps: 20000 is not accepted; give 30 to 400 A
}

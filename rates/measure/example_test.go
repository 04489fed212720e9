package measure_test

import (
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/rates/measure"
)

// A plank of 24' 6" by 9" by 2 1/2": 24.5 x 0.75 x 0.208333 = 3.828125 ft3.
func ExampleLength_Volume() {
	length, _ := measure.ParseLength(`24' 6"`, "")
	width, _ := measure.ParseLength("9", measure.In)
	thickness, _ := measure.ParseLength("2½", measure.In)
	v := length.Volume(width, thickness)
	fmt.Println(v.Billed(measure.Ft3), "ft3", v.Billed(measure.BF), "bf", v.Billed(measure.M3), "m3")
	// Output: 3.83 ft3 46 bf 0.108 m3
}

func ExampleParseLength() {
	l, err := measure.ParseLength("24ft 6 1/2in", "")
	fmt.Println(l.Format(measure.Ft), l.Format(measure.Mm), err)
	_, err = measure.ParseLength(`24' 13"`, "")
	fmt.Println(err)
	// Output:
	// 24' 6 1/2" 7480.3 mm <nil>
	// "24' 13\"" has twelve inches or more beside the feet
}

func ExampleParseNumber() {
	d, err := measure.ParseNumber("£1,250.00")
	fmt.Println(d, err)
	_, err = measure.ParseNumber("1 250,00")
	fmt.Println(err)
	// Output:
	// 1250 <nil>
	// "1 250,00" is not a number
}

// A stick 38' 6" long and 175" about: (175 / 4)2 x 38.5 / 144 = 511.75 Hoppus feet.
func ExampleLog_Hoppus() {
	stick := measure.Log{MidGirth: 175 * measure.Inch, Length: 38*measure.Foot + 6*measure.Inch}
	q, err := stick.Hoppus()
	fmt.Println(q.In(measure.Ft3, 2), err)
	// Output: 511.75 <nil>
}

func ExampleQuantity_In() {
	q := measure.Of(decimal.New(1, 0), measure.Std)
	fmt.Println(q.In(measure.Ft3, 0), q.In(measure.M3, 3))
	// Output: 165 4.672
}

package unit

// row is one unit of the table as it is written down.
type row struct {
	kind   Kind
	name   string // as shown to people
	factor string // product and quotient of exact decimals, in units of Kind.Inside
	also   string // other spellings, separated by blanks
}

// table holds every unit. All factors are exact by definition (but for pi):
// the yard is 0.9144 m and the pound 0.45359237 kg (international yard and
// pound agreement, 1959), an ounce is 1/16 lb, standard gravity is
// 9.80665 m/s2 (3rd CGPM, 1901), the nautical mile is 1852 m (Monaco, 1929).
// The order in a kind is the order in which error messages list the units.
//
// Names are matched with upper and lower case apart, since kn is not kN and mJ
// is not MJ. A name stands for one kind only, so that a number of the wrong
// kind can be told from a misspelled unit. Gallons and fluid ounces are left
// out: which one is meant depends on the country.
var table = []row{
	{Length, "mm", "0.001", "millimeter millimeters millimetre millimetres"},
	{Length, "cm", "0.01", "centimeter centimeters centimetre centimetres"},
	{Length, "m", "1", "meter meters metre metres"},
	{Length, "in", "0.0254", "inch inches"},
	{Length, "ft", "0.3048", "foot feet"},
	{Length, "yd", "0.9144", "yard yards"},
	{Length, "um", "1e-6", "micron microns"},

	{Area, "mm2", "1e-6", ""},
	{Area, "cm2", "1e-4", ""},
	{Area, "dm2", "1e-2", ""},
	{Area, "m2", "1", ""},
	{Area, "in2", "0.0254*0.0254", "sqin"},
	{Area, "ft2", "0.3048*0.3048", "sqft"},
	{Area, "yd2", "0.9144*0.9144", "sqyd"},

	{Volume, "mL", "1e-6", "ml"},
	{Volume, "L", "1e-3", "l liter liters litre litres"},
	{Volume, "mm3", "1e-9", ""},
	{Volume, "cm3", "1e-6", "cc"},
	{Volume, "dm3", "1e-3", ""},
	{Volume, "m3", "1", ""},
	{Volume, "in3", "0.0254*0.0254*0.0254", "cuin"},
	{Volume, "ft3", "0.3048*0.3048*0.3048", "cuft"},

	{SecondMoment, "mm4", "1e-12", ""},
	{SecondMoment, "cm4", "1e-8", ""},
	{SecondMoment, "m4", "1", ""},
	{SecondMoment, "in4", "0.0254*0.0254*0.0254*0.0254", ""},
	{SecondMoment, "ft4", "0.3048*0.3048*0.3048*0.3048", ""},

	{Mass, "g", "0.001", "gram grams"},
	{Mass, "kg", "1", "kilogram kilograms"},
	{Mass, "oz", "0.45359237/16", "ounce ounces"},
	{Mass, "lb", "0.45359237", "lbs pound pounds"},
	{Mass, "mg", "1e-6", "milligram milligrams"},

	{MassPerLength, "g/mm", "1", ""},
	{MassPerLength, "g/cm", "0.1", ""},
	{MassPerLength, "g/m", "0.001", ""},
	{MassPerLength, "kg/mm", "1000", ""},
	{MassPerLength, "kg/cm", "100", ""},
	{MassPerLength, "kg/m", "1", ""},
	{MassPerLength, "oz/in", "0.45359237/16/0.0254", ""},
	{MassPerLength, "lb/in", "0.45359237/0.0254", ""},
	{MassPerLength, "lb/ft", "0.45359237/0.3048", ""},

	{ArealDensity, "g/m2", "0.001", "gsm"},
	{ArealDensity, "g/cm2", "10", ""},
	{ArealDensity, "g/dm2", "0.1", ""},
	{ArealDensity, "kg/m2", "1", ""},
	{ArealDensity, "oz/yd2", "0.45359237/16/0.9144/0.9144", "oz/sqyd"},
	{ArealDensity, "oz/ft2", "0.45359237/16/0.3048/0.3048", "oz/sqft"},
	{ArealDensity, "lb/ft2", "0.45359237/0.3048/0.3048", "lb/sqft"},

	{Density, "kg/m3", "1", ""},
	{Density, "g/cm3", "1000", "g/cc"},
	{Density, "g/mL", "1000", "g/ml"},
	{Density, "kg/L", "1000", "kg/l kg/dm3"},
	{Density, "g/L", "1", "g/l"},
	{Density, "lb/ft3", "0.45359237/0.3048/0.3048/0.3048", "lb/cuft"},
	{Density, "lb/in3", "0.45359237/0.0254/0.0254/0.0254", "lb/cuin"},
	{Density, "oz/in3", "0.45359237/16/0.0254/0.0254/0.0254", "oz/cuin"},

	{Angle, "deg", "pi/180", "° degree degrees"},
	{Angle, "rad", "1", "radian radians"},

	{Share, "%", "0.01", "percent"},
	{Share, "ratio", "1", ""},

	{Force, "N", "1", "newton newtons"},
	{Force, "kN", "1000", ""},
	{Force, "gf", "0.00980665", ""},
	{Force, "kgf", "9.80665", ""},
	{Force, "ozf", "0.45359237*9.80665/16", ""},
	{Force, "lbf", "0.45359237*9.80665", ""},

	{Torque, "N m", "1", ""},
	{Torque, "N cm", "0.01", ""},
	{Torque, "N mm", "0.001", ""},
	{Torque, "kgf m", "9.80665", ""},
	{Torque, "kgf cm", "0.0980665", ""},
	{Torque, "ozf in", "0.45359237*9.80665*0.0254/16", ""},
	{Torque, "lbf in", "0.45359237*9.80665*0.0254", ""},
	{Torque, "lbf ft", "0.45359237*9.80665*0.3048", ""},

	{MomentPerAngle, "N m/deg", "180/pi", ""},
	{MomentPerAngle, "N m/rad", "1", ""},
	{MomentPerAngle, "lbf in/deg", "0.45359237*9.80665*0.0254*180/pi", ""},

	{Pressure, "Pa", "1", ""},
	{Pressure, "hPa", "100", "mbar"},
	{Pressure, "kPa", "1000", ""},
	{Pressure, "bar", "1e5", ""},
	{Pressure, "psi", "0.45359237*9.80665/0.0254/0.0254", ""},

	{Energy, "mJ", "0.001", ""},
	{Energy, "J", "1", "joule joules"},
	{Energy, "kJ", "1000", ""},
	{Energy, "Wh", "3600", ""},

	{Speed, "m/s", "1", ""},
	{Speed, "km/h", "1000/3600", "kph"},
	{Speed, "kn", "1852/3600", "kt kts knot knots"},
	{Speed, "mph", "1609.344/3600", ""},
	{Speed, "ft/s", "0.3048", "fps"},

	{Time, "s", "1", "sec second seconds"},
	{Time, "min", "60", "minute minutes"},
	{Time, "h", "3600", "hour hours"},
	{Time, "ms", "0.001", ""},

	{Temperature, "C", "1", "°C degC celsius"},
	{Temperature, "F", "5/9", "°F degF fahrenheit"},
	{Temperature, "K", "1", "kelvin"},

	{Salinity, "g/kg", "1", "ppt ‰"},
}

// shifts is what is added to a number in a unit before it is multiplied by the
// factor; only scales of temperature have it.
var shifts = map[string]string{"F": "-32", "K": "-273.15"}

// pi to 50 decimals, so that degrees are converted in the same exact
// arithmetic as everything else and rounded once, at the end.
const pi = "3.14159265358979323846264338327950288419716939937510"

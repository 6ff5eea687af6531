package design

// BothSlopes gives external tests a derivative both ways.
func BothSlopes(t *Trial, v Varied, a Asked, h float64) (exact, differences float64, ok bool) {
	now, err := v.Now(t.Craft)
	if err != nil {
		return 0, 0, false
	}
	exact, ok = exactSlope(t, v, now, h, a)
	differences, err = differenceSlope(t, v, now, h, a)
	return exact, differences, ok && err == nil
}

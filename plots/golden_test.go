package plots

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"gonum.org/v1/plot/cmpimg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
)

// Golden pictures are in testdata/*_golden.png; after a change that is meant,
// look at the new ones that
//
//	go test ./plots -run Golden -regen
//
// writes. The delta allows for rounding in antialiasing on other processors.
func TestGolden(t *testing.T) {
	const delta = 0.02
	for _, f := range samples() {
		t.Run(f.name, func(t *testing.T) {
			var got bytes.Buffer
			dpi := f.dpi
			if dpi == 0 {
				dpi = DPI
			}
			c := vgimg.PngCanvas{Canvas: vgimg.NewWith(vgimg.UseWH(f.w, f.h), vgimg.UseDPI(dpi))}
			f.draw(draw.New(c))
			if _, err := c.WriteTo(&got); err != nil {
				t.Fatal(err)
			}
			path := filepath.Join("testdata", f.name+"_golden.png")
			if *cmpimg.GenerateTestData {
				if err := os.WriteFile(path, got.Bytes(), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			ok, err := cmpimg.EqualApprox("png", got.Bytes(), want, delta)
			if err != nil {
				t.Fatal(err)
			}
			if !ok {
				out := filepath.Join(os.TempDir(), f.name+"_got.png")
				if err := os.WriteFile(out, got.Bytes(), 0o644); err != nil {
					t.Log(err)
				}
				t.Errorf("%s: picture differs from %s; the new one is in %s", f.name, path, out)
			}
		})
	}
}

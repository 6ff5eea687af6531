package main

import (
	"fmt"
	"os"
	"strings"
)

func itoa(n int) string { return fmt.Sprint(n) }

// craftText is a craft file of one box, with some text changed.
func craftText(change ...string) string {
	return strings.NewReplacer(change...).Replace(`name = "box"

[[part]]
name = "box"
mesh = "box.stl"
unit = "mm"
role = "flotation"
mass = "3 kg"
`)
}

// badCrafts is craft files with mistakes; the box lies beside them.
func badCrafts(box string) []badInput {
	of := func(what, data string) badInput {
		return badInput{what: what, file: "craft.toml", data: data, args: "rest craft.toml"}
	}
	if err := os.WriteFile("box.stl", []byte(box), 0o644); err != nil {
		panic(err)
	}
	var six strings.Builder
	for i, m := range panels() {
		name := fmt.Sprintf("panel%d", i+1)
		if err := os.WriteFile(name+".stl", []byte(stl(m)), 0o644); err != nil {
			panic(err)
		}
		six.WriteString(strings.NewReplacer(`"box"`, `"`+name+`"`, "box.stl", name+".stl", "3 kg", "0.3 kg").Replace("\n" + strings.SplitN(craftText(), "\n", 3)[2]))
	}
	return []badInput{
		{what: "no such file", args: "rest nowhere.toml"},
		of("an empty file", ""),
		of("a misspelled key", craftText("role", "rol")),
		of("a misspelled role", craftText(`"flotation"`, `"floatation"`)),
		of("a mesh that is not there", craftText("box.stl", "gone.stl")),
		of("no unit for the mesh", craftText("unit = \"mm\"\n", "")),
		of("a number without a unit", craftText(`"3 kg"`, "3")),
		of("a length for a mass", craftText(`"3 kg"`, `"3 mm"`)),
		of("a text without quotes", craftText(`"3 kg"`, "3 kg")),
		of("a decimal comma", craftText(`"3 kg"`, `"3,5 kg"`)),
		of("no mass", craftText("mass = \"3 kg\"\n", "")),
		of("two parts of one name", craftText()+strings.SplitN(craftText(), "\n", 3)[2]),
		of("a mass beyond all measure", craftText(`"3 kg"`, `"3e300 kg"`)),
		of("too heavy to float", craftText(`"3 kg"`, `"30 kg"`)),
		of("panels in files of their own that shut a space in", "name = \"box\"\n"+six.String()),
		of("a key of 5,000 letters", strings.Repeat("k", 5_000)+" = 1"),
		of("a text of 5,000 letters", craftText(`"box"`, `"`+strings.Repeat("b", 5_000)+`"`)),
		of("a key there twice", craftText()+"role = \"buoyant\"\n"),
		of("3,000 wrong keys", craftText()+strings.Repeat("[[part]]\nrol = 1\n", 3_000)),
		of("an STL file named .toml", box),
		of("text in UTF-16", "\xff\xfen\x00a\x00m\x00e\x00"),
		of("brackets nested 10,000 deep", "a = "+strings.Repeat("[", 10_000)),
		of("more than a megabyte", "# "+strings.Repeat("x", 2<<20)),
	}
}

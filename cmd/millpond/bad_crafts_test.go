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
		of("an STL file named .toml", box),
		of("text in UTF-16", "\xff\xfen\x00a\x00m\x00e\x00"),
		of("brackets nested 10,000 deep", "a = "+strings.Repeat("[", 10_000)),
		of("more than a megabyte", "# "+strings.Repeat("x", 2<<20)),
	}
}

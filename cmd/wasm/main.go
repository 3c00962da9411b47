//go:build js && wasm

package main

import (
	"syscall/js"

	"trammel/cmd/internal/page"
)

func main() {
	js.Global().Set("trammelAnswer", js.FuncOf(func(_ js.Value, args []js.Value) any {
		var ask []byte
		if len(args) == 1 && args[0].InstanceOf(js.Global().Get("Uint8Array")) {
			ask = make([]byte, args[0].Length())
			js.CopyBytesToGo(ask, args[0])
		}
		reply := page.Answer(ask)
		out := js.Global().Get("Uint8Array").New(len(reply))
		js.CopyBytesToJS(out, reply)
		return out
	}))
	select {}
}

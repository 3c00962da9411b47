package strict

import (
	"bytes"

	"go.yaml.in/yaml/v3"
)

// Put changes the value of a key in the file as parsed, or adds the key below
// the others. It changes nothing in a value that is not keys with values.
func (v Value) Put(key, text string) {
	n := v.node
	if n.Kind != yaml.MappingNode {
		return
	}
	word := func(text string) *yaml.Node {
		return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: text}
	}
	for i := 0; i < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			old := n.Content[i+1]
			n.Content[i+1] = word(text)
			n.Content[i+1].LineComment = old.LineComment
			return
		}
	}
	n.Content = append(n.Content, word(key), word(text))
}

// PutList is Put of a list of texts.
func (v Value) PutList(key string, texts []string) {
	v.Put(key, "")
	for i, n := 0, v.node; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			list := &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq"}
			for _, t := range texts {
				list.Content = append(list.Content, &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: t})
			}
			n.Content[i+1] = list
		}
	}
}

// Under is the keys with values below a key, which is added where it is not there,
// or holds none.
func (v Value) Under(key string) Value {
	n := v.node
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key && n.Content[i+1].Kind == yaml.MappingNode {
			return Value{v.file, n.Content[i+1]}
		}
	}
	v.Put(key, "")
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			n.Content[i+1] = &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map"}
			return Value{v.file, n.Content[i+1]}
		}
	}
	return v
}

// Bytes is the file as it reads after Put, remarks and all.
func (v Value) Bytes() ([]byte, error) {
	var b bytes.Buffer
	e := yaml.NewEncoder(&b)
	e.SetIndent(2)
	if err := e.Encode(v.node); err != nil {
		return nil, err
	}
	if err := e.Close(); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

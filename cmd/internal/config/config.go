// Package config gathers what is set down for every run: one's own file of
// profiles, the one named with --config, and the environment. It is the only
// package that knows viper.
//
// Each lies over those before: what is built in, $XDG_CONFIG_HOME/trammel/config.yaml
// (else ~/.config/trammel/config.yaml), the file of --config or of TRAMMEL_CONFIG,
// then TRAMMEL_PAPER, TRAMMEL_PRINTER and TRAMMEL_TRADE. An empty variable says
// nothing.
package config

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"

	"github.com/spf13/viper"

	"trammel/geom/unit"
	"trammel/profiles"
)

// prefix of the variables: TRAMMEL_PAPER.
const prefix = "TRAMMEL"

// variable is the name of the one that says key.
func variable(key string) string { return prefix + "_" + strings.ToUpper(key) }

// keys of the environment, each one variable. viper folds keys to small letters, so they are.
var keys = []string{"config", "paper", "printer", "trade"}

// environment is what the variables say, by key. viper sees texts and gives texts: nothing
// is made a number of (it would make 0 of "10 mm").
func environment() (map[string]string, error) {
	v, said := viper.New(), map[string]string{}
	for _, k := range keys {
		if err := v.BindEnv(k, variable(k)); err != nil {
			return nil, err
		}
		said[k] = v.GetString(k)
	}
	return said, nil
}

// Profiles reads them all; file is that of --config, or empty, and read reads a file
// that somebody named. What is wrong in a file or a variable is a *unit.Fault that
// says which.
func Profiles(file string, read func(path string) ([]byte, error)) (profiles.Set, error) {
	var files []profiles.File
	add := func(path, where string) error {
		data, err := read(path)
		var f *unit.Fault
		if errors.As(err, &f) && where != "" {
			return f.In(where)
		}
		files = append(files, profiles.File{Name: path, Data: data})
		return err
	}
	env, err := environment()
	if err != nil {
		return profiles.Set{}, fmt.Errorf("environment: %w", err)
	}
	if own := File(); own != "" {
		if _, err := os.Stat(own); !errors.Is(err, fs.ErrNotExist) && !errors.Is(err, syscall.ENOTDIR) {
			if err := add(own, ""); err != nil {
				return profiles.Set{}, err
			}
		}
	}
	if where := "--config"; file != "" || env["config"] != "" {
		if file == "" {
			file, where = env["config"], variable("config")
		}
		if err := add(file, where); err != nil {
			return profiles.Set{}, err
		}
	}
	set, err := profiles.Load(files...)
	for _, kind := range keys[1:] {
		if name := env[kind]; name != "" {
			set = set.Preferring(kind, name, variable(kind))
		}
	}
	return set, err
}

// File is where one's own profiles lie (XDG base directory specification: a path that
// is not absolute is passed over; on Windows in %AppData%, where programs keep what is
// theirs), empty where no folder is known.
func File() string { return fileOn(runtime.GOOS, os.Getenv) }

// fileOn is that on a system, of which only its variables are asked.
func fileOn(system string, variable func(string) string) string {
	if x := variable("XDG_CONFIG_HOME"); filepath.IsAbs(x) {
		return filepath.Join(x, "trammel", "config.yaml")
	}
	home := variable("HOME")
	if system == "windows" {
		if x := variable("AppData"); x != "" {
			return filepath.Join(x, "trammel", "config.yaml")
		}
		home = variable("USERPROFILE")
	}
	if home == "" {
		return ""
	}
	return filepath.Join(home, ".config", "trammel", "config.yaml")
}

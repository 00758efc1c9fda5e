//go:build !linux && !darwin

package whole

import "errors"

// exchange swaps two paths in one step, which this system can't.
var exchange = func(a, b string) error { return errors.ErrUnsupported }

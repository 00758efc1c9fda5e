//go:build !linux && !darwin

package whole

import "errors"

// exchange swaps two paths in one step, which this system can't.
func exchange(a, b string) error { return errors.ErrUnsupported }

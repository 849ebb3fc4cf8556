//go:build race

package jobfile_test

import "oddleg/jobfile"

func init() { hostileSize = jobfile.MaxSize / 16 }

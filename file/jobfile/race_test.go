//go:build race

package jobfile_test

import "codeberg.org/oddleg/oddleg/file/jobfile"

func init() { hostileSize = jobfile.MaxSize / 16 }

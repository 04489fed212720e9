package output

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
)

// The causes for which a file is not replaced, for errors.Is.
var (
	ErrHeld     = errors.New("is open in another program")
	ErrChanged  = errors.New("has changed since it was read")
	ErrReadOnly = errors.New("is marked read-only")
)

// Replace puts data in the place of the file at path, which held was when it
// was read, and keeps what it held beside it: yard.xlsx.old or, where there is
// one already, yard.xlsx.old2 and so on. It gives the path of that backup.
//
// The backup and the new file are written whole, forced to disk and read back
// before the new one takes the place of the old in one step: killed at any
// moment, the file is the old or the new. If anything fails before, nothing is
// left of the new file and the backup. The new file has the rights of the old;
// a link is followed to the file itself.
//
// Refused are a file that is marked read-only, one that holds anything but
// was, and one beside which a spreadsheet program has left the mark that it
// holds it: ~$yard.xlsx or .~lock.yard.xlsx#. Both of these are looked at again
// just before the step.
func Replace(path string, was, data []byte) (backup string, err error) {
	return replace(osDisk{}, path, was, data)
}

// replacing is one run of Replace.
type replacing struct {
	saving        // the backup and the new file, in this order
	given, target string
	was           []byte
	backup        string
}

func replace(d disk, path string, was, data []byte) (string, error) {
	r := &replacing{saving: saving{disk: d}, given: path, was: was}
	if err := r.ready(data); err != nil {
		return "", errors.Join(err, r.undo())
	}
	fresh := &r.places[1]
	if err := d.Rename(fresh.fresh, r.target); err != nil {
		err = fmt.Errorf("cannot replace %s (if it is open in another program, close it there): %w", r.target, err)
		return "", errors.Join(err, r.undo())
	}
	if err := d.SyncDir(filepath.Dir(r.target)); err != nil {
		return r.backup, fmt.Errorf("%s is replaced, but may fall back to the old in a power cut: %w", r.target, err)
	}
	return r.backup, nil
}

// ready does everything up to the one step.
func (r *replacing) ready(data []byte) error {
	target, err := r.disk.Follow(r.given)
	if err != nil {
		return fmt.Errorf("cannot find %s: %w", r.given, err)
	}
	r.target = target
	info, err := r.disk.Stat(target)
	switch {
	case err != nil:
		return fmt.Errorf("cannot find %s: %w", r.given, err)
	case !info.Mode().IsRegular():
		return fmt.Errorf("%s is not an ordinary file and is not written over", r.given)
	case info.Mode().Perm()&0o200 == 0:
		return fmt.Errorf("%s %w; nothing is written", r.given, ErrReadOnly)
	}
	if err := r.free(); err != nil {
		return err
	}
	r.places = []place{{path: target}, {path: target}}
	for i, b := range [][]byte{r.was, data} {
		p := &r.places[i]
		err := r.write(p, b)
		if err == nil {
			err = r.disk.Chmod(p.fresh, info.Mode())
		}
		if err == nil {
			err = r.holds(p.fresh, b)
		}
		if err != nil {
			return fmt.Errorf("cannot write beside %s: %w", target, err)
		}
	}
	if err := r.keep(); err != nil {
		return fmt.Errorf("cannot keep a backup of %s: %w", target, err)
	}
	return r.free()
}

// free refuses a file that another program holds or has changed.
func (r *replacing) free() error {
	for _, path := range []string{r.given, r.target} {
		dir, base := filepath.Split(path)
		for _, mark := range []string{"~$" + base, ".~lock." + base + "#"} {
			_, err := r.disk.Lstat(filepath.Join(dir, mark))
			if err == nil {
				return fmt.Errorf("%s %w: close it there, or remove %s if no program has it open; nothing is written", r.given, ErrHeld, filepath.Join(dir, mark))
			}
			if !errors.Is(err, os.ErrNotExist) {
				return err
			}
		}
	}
	now, err := r.disk.Read(r.target)
	if err == nil && !bytes.Equal(now, r.was) {
		err = fmt.Errorf("%s %w; nothing is written, run it again", r.given, ErrChanged)
	}
	return err
}

// holds reads a file back that was just written.
func (r *replacing) holds(path string, data []byte) error {
	got, err := r.disk.Read(path)
	if err == nil && !bytes.Equal(got, data) {
		err = fmt.Errorf("%s was read back and is not what was written", path)
	}
	return err
}

// keep gives the backup its name, once it is whole: nobody finds half of one.
func (r *replacing) keep() error {
	for n := 1; n <= tries; n++ {
		name := r.target + ".old"
		if n > 1 {
			name = fmt.Sprintf("%s%d", name, n)
		}
		_, err := r.disk.Lstat(name)
		if err == nil {
			continue
		}
		if !errors.Is(err, os.ErrNotExist) {
			return err
		}
		if err := r.disk.Rename(r.places[0].fresh, name); err != nil {
			return err
		}
		r.backup = name
		r.places[0].fresh = ""
		return r.disk.SyncDir(filepath.Dir(name))
	}
	return fmt.Errorf("%s.old%d and its like are all taken; remove them", r.target, tries)
}

// undo removes what was written beside the file.
func (r *replacing) undo() error {
	var errs []error
	for _, p := range r.places {
		if p.fresh != "" {
			errs = append(errs, r.remove(p.fresh))
		}
	}
	if r.backup != "" {
		errs = append(errs, r.remove(r.backup))
	}
	return errors.Join(errs...)
}

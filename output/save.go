// Package output hands over what a run has made. Documents come in as names
// and bytes; they go out as files, all of them or none: a run that fails
// leaves the folder as it was. The documents themselves are made in the
// packages beneath.
package output

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
)

// File is a document to be saved.
type File struct {
	Name string // base name, such as "T-12-bill.xlsx"
	Data []byte
}

// Save writes the files into the folder, making it if need be. All are first
// written beside their places and forced to disk; then the old files of those
// names are set aside one by one and the new ones put in their places; then
// the old ones are removed. If anything fails before that is done, the old
// files are put back and nothing of the new set is left, not even a folder
// made for it. The error says what failed.
//
// Inputs are the paths of the files the run has read: Save refuses to write
// over any of them, under whatever name. Names with a separator in them and
// two files of one name (case not regarded, as on most desks) are refused.
func Save(dir string, files []File, inputs ...string) error {
	return save(osDisk{}, dir, files, inputs)
}

// saving is one run of Save.
type saving struct {
	disk   disk
	places []place
	made   []string // folders made for it, the outermost first
}

// place is where a file goes. The paths are "" until they are in use.
type place struct {
	path  string // its own
	fresh string // the new file, written beside
	aside string // the old file, set aside
	done  bool   // the new file is in its place
}

func save(d disk, dir string, files []File, inputs []string) error {
	if err := checkNames(files); err != nil {
		return err
	}
	s := &saving{disk: d}
	if err := s.run(dir, files, inputs); err != nil {
		return errors.Join(err, s.undo())
	}
	return s.clear()
}

// checkNames refuses names that lead elsewhere or fall together.
func checkNames(files []File) error {
	seen := make(map[string]bool)
	for _, f := range files {
		if f.Name == "" || f.Name == "." || f.Name == ".." || strings.ContainsAny(f.Name, "/\\:\x00") {
			return fmt.Errorf("%q is not a plain file name", f.Name)
		}
		key := strings.ToLower(f.Name)
		if seen[key] {
			return fmt.Errorf("two files would be named %q", f.Name)
		}
		seen[key] = true
	}
	return nil
}

// run does everything up to the last step from which there is a way back.
func (s *saving) run(dir string, files []File, inputs []string) error {
	if err := s.makeDir(dir); err != nil {
		return fmt.Errorf("cannot make the folder %s: %w", dir, err)
	}
	for _, f := range files {
		p := place{path: filepath.Join(dir, f.Name)}
		if err := s.spare(p.path, inputs); err != nil {
			return err
		}
		s.places = append(s.places, p)
	}
	for i, f := range files {
		if err := s.write(&s.places[i], f.Data); err != nil {
			return fmt.Errorf("cannot write %s: %w", s.places[i].path, err)
		}
	}
	for i := range s.places {
		if err := s.replace(&s.places[i]); err != nil {
			return fmt.Errorf("cannot replace %s (if it is open in another program, close it there): %w", s.places[i].path, err)
		}
	}
	if err := s.disk.SyncDir(dir); err != nil {
		return fmt.Errorf("cannot save in %s: %w", dir, err)
	}
	return nil
}

// makeDir makes the folder and those above it, noting each one made.
func (s *saving) makeDir(dir string) error {
	var missing []string
	for at := filepath.Clean(dir); ; at = filepath.Dir(at) {
		info, err := s.disk.Stat(at)
		if err == nil && !info.IsDir() || errors.Is(err, syscall.ENOTDIR) {
			return errors.New("a file of that name, or of a folder above it, is there already")
		}
		if err == nil {
			break
		}
		if !errors.Is(err, os.ErrNotExist) || at == filepath.Dir(at) {
			return err
		}
		missing = append(missing, at)
	}
	for i := len(missing) - 1; i >= 0; i-- {
		// Another run may make the same folder in between: then it is not ours to remove.
		switch err := s.disk.Mkdir(missing[i]); {
		case err == nil:
			s.made = append(s.made, missing[i])
		case !errors.Is(err, os.ErrExist):
			return err
		}
	}
	return nil
}

// spare refuses to write over a file the run has read, or over a folder.
func (s *saving) spare(path string, inputs []string) error {
	info, err := s.disk.Stat(path)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return nil
	case err != nil:
		return err
	case !info.Mode().IsRegular():
		return fmt.Errorf("%s is not an ordinary file and is not written over", path)
	}
	for _, in := range inputs {
		read, err := s.disk.Stat(in)
		if errors.Is(err, os.ErrNotExist) {
			continue
		}
		if err != nil {
			return err
		}
		if os.SameFile(info, read) {
			return fmt.Errorf("%s is one of the files read and is not written over; name another folder", path)
		}
	}
	return nil
}

// write puts the new file beside its place, whole and on the disk.
func (s *saving) write(p *place, data []byte) error {
	f, name, err := s.create(p.path)
	if err != nil {
		return err
	}
	p.fresh = name
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

// tries is how many names are tried beside a file before giving up. They are
// only taken when earlier runs were cut off or others go on at the same time.
const tries = 1000

// create makes a new file beside a place, under a name nobody uses.
func (s *saving) create(path string) (file, string, error) {
	for n := 1; ; n++ {
		name := beside(path, n, "new")
		f, err := s.disk.Create(name)
		if err == nil || !errors.Is(err, os.ErrExist) || n == tries {
			return f, name, err
		}
	}
}

// beside is the nth name beside a file, hidden where a dot hides.
func beside(path string, n int, what string) string {
	return filepath.Join(filepath.Dir(path), fmt.Sprintf(".%s.%d.%s", filepath.Base(path), n, what))
}

// replace sets the old file aside and puts the new one in its place.
func (s *saving) replace(p *place) error {
	_, err := s.disk.Lstat(p.path)
	if err == nil {
		aside, err := s.unused(p.path)
		if err != nil {
			return err
		}
		if err := s.disk.Rename(p.path, aside); err != nil {
			return err
		}
		p.aside = aside
	} else if !errors.Is(err, os.ErrNotExist) {
		return err
	}
	if err := s.disk.Rename(p.fresh, p.path); err != nil {
		return err
	}
	p.done = true
	return nil
}

// unused is a name beside a file under which nothing stands.
func (s *saving) unused(path string) (string, error) {
	for n := 1; n <= tries; n++ {
		name := beside(path, n, "old")
		_, err := s.disk.Lstat(name)
		if errors.Is(err, os.ErrNotExist) {
			return name, nil
		}
		if err != nil {
			return "", err
		}
	}
	return "", fmt.Errorf("%s and its like are all taken; remove them", beside(path, tries, "old"))
}

// undo puts everything back as it was. Each step is tried twice: on some
// systems another program may hold a file for a moment. What still cannot be
// put back is named, so that nobody has to search for it.
func (s *saving) undo() error {
	var errs []error
	for i := len(s.places) - 1; i >= 0; i-- {
		p := s.places[i]
		switch {
		case p.aside != "":
			if err := twice(func() error { return s.disk.Rename(p.aside, p.path) }); err != nil {
				errs = append(errs, fmt.Errorf("the old %s is kept as %s and could not be put back: %w", p.path, p.aside, err))
			}
		case p.done:
			if err := s.remove(p.path); err != nil {
				errs = append(errs, err)
			}
		}
		if p.fresh != "" && !p.done {
			if err := s.remove(p.fresh); err != nil {
				errs = append(errs, err)
			}
		}
	}
	for i := len(s.made) - 1; i >= 0; i-- {
		if err := s.remove(s.made[i]); err != nil {
			errs = append(errs, err)
		}
	}
	return errors.Join(errs...)
}

// clear removes the old files set aside; the new ones are all in place.
func (s *saving) clear() error {
	var errs []error
	for _, p := range s.places {
		if p.aside == "" {
			continue
		}
		if err := s.remove(p.aside); err != nil {
			errs = append(errs, fmt.Errorf("all files are saved, but an old one is left: %w", err))
		}
	}
	return errors.Join(errs...)
}

// remove removes a file or empty folder of ours.
func (s *saving) remove(path string) error {
	return twice(func() error {
		if err := s.disk.Remove(path); !errors.Is(err, os.ErrNotExist) {
			return err
		}
		return nil
	})
}

// twice tries a step again if it fails the first time.
func twice(step func() error) error {
	if step() == nil {
		return nil
	}
	return step()
}

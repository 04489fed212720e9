package output

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"syscall"
)

// disk is the little that Save and Replace ask of a file system, so that a test
// can make each single step fail.
type disk interface {
	Stat(path string) (fs.FileInfo, error)
	Lstat(path string) (fs.FileInfo, error)
	Mkdir(path string) error
	Create(path string) (file, error) // never an existing one
	Rename(from, to string) error
	Remove(path string) error
	SyncDir(path string) error
	Follow(path string) (string, error) // through links to the file itself
	Read(path string) ([]byte, error)
	Chmod(path string, mode fs.FileMode) error
}

// file is a file being written.
type file interface {
	io.WriteCloser
	Sync() error
}

// osDisk is the file system of the machine.
type osDisk struct{}

func (osDisk) Stat(path string) (fs.FileInfo, error)  { return os.Stat(path) }
func (osDisk) Lstat(path string) (fs.FileInfo, error) { return os.Lstat(path) }
func (osDisk) Mkdir(path string) error                { return os.Mkdir(path, 0o755) }
func (osDisk) Rename(from, to string) error           { return os.Rename(from, to) }
func (osDisk) Remove(path string) error               { return os.Remove(path) }
func (osDisk) Follow(path string) (string, error)     { return filepath.EvalSymlinks(path) }
func (osDisk) Read(path string) ([]byte, error)       { return os.ReadFile(path) }

// Chmod gives a file the rights of another. Where a disk keeps none there is
// no harm in it.
func (osDisk) Chmod(path string, mode fs.FileMode) error {
	err := os.Chmod(path, mode.Perm())
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, errors.ErrUnsupported) {
		return nil
	}
	return err
}

// Create makes a new file that others may read and its owner write.
func (osDisk) Create(path string) (file, error) {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return nil, err // not f: a nil *os.File would not be a nil file
	}
	return f, nil
}

// SyncDir forces the names in a folder to disk, where the system can: Windows
// cannot, nor can some network disks, and there is no harm in it.
func (osDisk) SyncDir(path string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	d, err := os.Open(path)
	if err != nil {
		return err
	}
	err = d.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, errors.ErrUnsupported) {
		err = nil
	}
	return errors.Join(err, d.Close())
}

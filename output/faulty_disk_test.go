package output

import (
	"errors"
	"io/fs"
)

// errFault is what a faulty disk answers.
var errFault = errors.New("the disk is on strike")

// faultyDisk counts every operation and fails the one whose turn it is.
type faultyDisk struct {
	osDisk
	count, failAt int
	lasting       bool // every operation from then on fails too
	log           []string
}

func (d *faultyDisk) step(what string) error {
	d.count++
	d.log = append(d.log, what)
	if d.count == d.failAt || d.lasting && d.count > d.failAt && d.failAt > 0 {
		return errFault
	}
	return nil
}

func (d *faultyDisk) Stat(p string) (fs.FileInfo, error) {
	if err := d.step("stat"); err != nil {
		return nil, err
	}
	return d.osDisk.Stat(p)
}

func (d *faultyDisk) Lstat(p string) (fs.FileInfo, error) {
	if err := d.step("lstat"); err != nil {
		return nil, err
	}
	return d.osDisk.Lstat(p)
}

func (d *faultyDisk) Mkdir(p string) error {
	if err := d.step("mkdir"); err != nil {
		return err
	}
	return d.osDisk.Mkdir(p)
}

func (d *faultyDisk) Create(p string) (file, error) {
	if err := d.step("create"); err != nil {
		return nil, err
	}
	f, err := d.osDisk.Create(p)
	if err != nil {
		return nil, err
	}
	return &faultyFile{f, d}, nil
}

func (d *faultyDisk) Rename(from, to string) error {
	if err := d.step("rename"); err != nil {
		return err
	}
	return d.osDisk.Rename(from, to)
}

func (d *faultyDisk) Remove(p string) error {
	if err := d.step("remove"); err != nil {
		return err
	}
	return d.osDisk.Remove(p)
}

func (d *faultyDisk) SyncDir(p string) error {
	if err := d.step("syncdir"); err != nil {
		return err
	}
	return d.osDisk.SyncDir(p)
}

// faultyFile is a file on a faulty disk; a failing write leaves half.
type faultyFile struct {
	file
	disk *faultyDisk
}

func (f *faultyFile) Write(b []byte) (int, error) {
	if err := f.disk.step("write"); err != nil {
		n, _ := f.file.Write(b[:len(b)/2])
		return n, err
	}
	return f.file.Write(b)
}

func (f *faultyFile) Sync() error {
	if err := f.disk.step("sync"); err != nil {
		return err
	}
	return f.file.Sync()
}

func (f *faultyFile) Close() error {
	err := f.file.Close()
	if fault := f.disk.step("close"); fault != nil {
		return fault
	}
	return err
}

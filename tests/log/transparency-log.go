// Holds our site log against golang.org/x/mod/sumdb/tlog and note. Reads one JSON request from standard input and
// writes one JSON answer. Run with GO111MODULE=off GOPATH=/usr/share/gocode (Debian golang-golang-x-mod-dev).
package main

import (
	"crypto/rand"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"golang.org/x/mod/sumdb/note"
	"golang.org/x/mod/sumdb/tlog"
)

type inclusion struct {
	Index, Size int64
	Path        []tlog.Hash
}

type consistency struct {
	First, Second int64
	Path          []tlog.Hash
}

type request struct {
	Leaves      []string // the first so many make each tree
	Inclusion   []inclusion
	Consistency []consistency
	Tiles       []tileFolder
	Notes       []signedNote
	Sign        []string // texts of notes to be signed under a new key each
}

type tileFolder struct {
	Folder string
	Size   int64
}

type signedNote struct{ Note, Key string }

type answer struct {
	Roots       []tlog.Hash // of the first 0, 1, 2 ... leaves
	Inclusion   []inclusion // proofs of our own for the same leaves
	Consistency []consistency
	Refused     []string // what did not hold, and why
	Signed      []signedNote
}

type stored []tlog.Hash

func (s stored) ReadHashes(indexes []int64) ([]tlog.Hash, error) {
	out := make([]tlog.Hash, len(indexes))
	for i, index := range indexes {
		out[i] = s[index]
	}
	return out, nil
}

// Reads the tiles of a site log: the folder has no height in its paths, as C2SP tlog-tiles has it.
type folder string

func (f folder) Height() int                           { return 8 }
func (f folder) SaveTiles(tiles []tlog.Tile, data [][]byte) {}
func (f folder) ReadTiles(tiles []tlog.Tile) ([][]byte, error) {
	out := make([][]byte, len(tiles))
	for i, tile := range tiles {
		path := strings.Replace(tile.Path(), "tile/8/", "tile/", 1)
		data, err := os.ReadFile(filepath.Join(string(f), path))
		if err != nil {
			return nil, err
		}
		out[i] = data
	}
	return out, nil
}

func main() {
	var asked request
	must(json.NewDecoder(os.Stdin).Decode(&asked))
	var hashes stored
	given := answer{Roots: []tlog.Hash{root(hashes, 0)}}
	for i, leaf := range asked.Leaves {
		more, err := tlog.StoredHashes(int64(i), []byte(leaf), hashes)
		must(err)
		hashes = append(hashes, more...)
		given.Roots = append(given.Roots, root(hashes, int64(i)+1))
	}
	refuse := func(what string, err error) {
		if err != nil {
			given.Refused = append(given.Refused, fmt.Sprintf("%s: %v", what, err))
		}
	}
	for _, p := range asked.Inclusion {
		leaf := tlog.RecordHash([]byte(asked.Leaves[p.Index]))
		refuse(fmt.Sprintf("inclusion %d in %d", p.Index, p.Size),
			tlog.CheckRecord(p.Path, p.Size, given.Roots[p.Size], p.Index, leaf))
		own, err := tlog.ProveRecord(p.Size, p.Index, hashes)
		must(err)
		given.Inclusion = append(given.Inclusion, inclusion{p.Index, p.Size, own})
	}
	for _, p := range asked.Consistency {
		refuse(fmt.Sprintf("consistency %d to %d", p.First, p.Second),
			tlog.CheckTree(p.Path, p.Second, given.Roots[p.Second], p.First, given.Roots[p.First]))
		own, err := tlog.ProveTree(p.Second, p.First, hashes)
		must(err)
		given.Consistency = append(given.Consistency, consistency{p.First, p.Second, own})
	}
	for _, t := range asked.Tiles {
		// The reader authenticates each tile against the root before it gives a hash out of it.
		tree := tlog.Tree{N: t.Size, Hash: given.Roots[t.Size]}
		reader := tlog.TileHashReader(tree, folder(t.Folder))
		for i := int64(0); i < t.Size; i++ {
			got, err := reader.ReadHashes([]int64{tlog.StoredHashIndex(0, i)})
			if err == nil && got[0] != tlog.RecordHash([]byte(asked.Leaves[i])) {
				err = fmt.Errorf("another hash")
			}
			refuse(fmt.Sprintf("tiles of %d, leaf %d", t.Size, i), err)
		}
	}
	for i, n := range asked.Notes {
		verifier, err := note.NewVerifier(n.Key)
		if err == nil {
			_, err = note.Open([]byte(n.Note), note.VerifierList(verifier))
		}
		refuse(fmt.Sprintf("note %d", i), err)
	}
	for i, text := range asked.Sign {
		private, public, err := note.GenerateKey(rand.Reader, fmt.Sprintf("example.org/log-%d", i))
		must(err)
		signer, err := note.NewSigner(private)
		must(err)
		signed, err := note.Sign(&note.Note{Text: text}, signer)
		must(err)
		given.Signed = append(given.Signed, signedNote{string(signed), public})
	}
	must(json.NewEncoder(os.Stdout).Encode(given))
}

func root(hashes stored, size int64) tlog.Hash {
	if size == 0 {
		// tlog of x/mod v0.7 has no root for the tree without leaves; RFC 9162 has SHA-256 of nothing.
		return tlog.Hash{}
	}
	hash, err := tlog.TreeHash(size, hashes)
	must(err)
	return hash
}

func must(err error) {
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

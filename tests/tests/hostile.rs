//! Bytes from outside: all that the fuzzer found worth keeping, and a short run of changes to it.

use std::{fs, path::PathBuf};

use rand::{Rng, RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use suite::hostile::TARGETS;

/// Changed inputs tried for each target; a longer run is the fuzzer's.
const RUNS: usize = 150;

fn corpus(target: &str) -> Vec<(PathBuf, Vec<u8>)> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join("corpus")
        .join(target);
    let mut finds: Vec<_> = fs::read_dir(&folder)
        .unwrap_or_else(|error| panic!("{}: {error}", folder.display()))
        .flatten()
        .filter_map(|entry| Some((entry.path(), fs::read(entry.path()).ok()?)))
        .collect();
    finds.sort();
    finds
}

#[test]
fn every_find_of_the_fuzzer_is_answered() {
    for (name, target) in TARGETS {
        let finds = corpus(name);
        assert!(!finds.is_empty(), "{name} has no finds");
        for (_path, bytes) in finds {
            target(&bytes);
        }
    }
}

#[test]
fn finds_changed_at_random_are_answered() {
    let mut draw = ChaCha8Rng::seed_from_u64(20);
    for (name, target) in TARGETS {
        let finds = corpus(name);
        for _ in 0..RUNS {
            let (_path, bytes) = &finds[draw.random_range(0..finds.len())];
            target(&changed(bytes, &mut draw));
        }
    }
}

/// A few of its bytes exchanged, cut out or doubled.
fn changed(bytes: &[u8], draw: &mut impl Rng) -> Vec<u8> {
    let mut bytes = bytes.to_vec();
    for _ in 0..draw.random_range(1..6) {
        if bytes.is_empty() {
            return bytes;
        }
        let from = draw.random_range(0..bytes.len());
        let to = (from + draw.random_range(1..24)).min(bytes.len());
        match draw.random_range(0..4) {
            0 => bytes[from] = draw.random(),
            1 => bytes[from] ^= 1 << draw.random_range(0..8),
            2 => drop(bytes.drain(from..to)),
            _ => {
                let piece = bytes[from..to].to_vec();
                bytes.splice(from..from, piece);
            }
        }
    }
    bytes
}

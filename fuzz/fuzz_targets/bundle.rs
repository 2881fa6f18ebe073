//! Archives of a card with its photos, and pictures.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| suite::hostile::read_bundle(bytes));

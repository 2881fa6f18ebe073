//! The plan reader.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| suite::hostile::read_plan(bytes));

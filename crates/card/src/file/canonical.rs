//! The canonical form of JSON (RFC 8785) and the hash over it (SHA-256, FIPS 180-4).

use std::{cmp::Ordering, fmt::Write};

use serde_json::{Map, Value};
use sha2::{Digest, Sha256};

/// The canonical form of RFC 8785: members sorted by their keys' UTF-16 units, numbers as ECMAScript
/// writes them, no white space. Equal values give equal bytes everywhere.
pub fn canonical(value: &Value) -> String {
    let mut text = String::new();
    write_value(&mut text, value);
    text
}

/// Appends the canonical form of a value to a text.
pub(super) fn write_canonical(text: &mut String, value: &Value) {
    write_value(text, value);
}

/// The canonical form of an object before and after the value of one of its members, of which only the
/// name counts; without another member.
pub(super) fn canonical_around(
    members: &Map<String, Value>,
    name: &str,
    left_out: &str,
) -> (String, String) {
    let others = sorted(members).into_iter();
    let (before, after): (Vec<Member<'_>>, Vec<Member<'_>>) = others
        .filter(|(key, _)| *key != left_out && *key != name)
        .partition(|(key, _)| by_units(key, name).is_lt());
    let mut head = "{".to_owned();
    write_members(&mut head, &before);
    if !before.is_empty() {
        head.push(',');
    }
    write_string(&mut head, name);
    head.push(':');
    let mut tail = String::new();
    if !after.is_empty() {
        tail.push(',');
    }
    write_members(&mut tail, &after);
    tail.push('}');
    (head, tail)
}

/// The canonical form of an object without one of its members.
pub(super) fn canonical_without(members: &Map<String, Value>, left_out: &str) -> String {
    let mut others = sorted(members);
    others.retain(|(key, _)| *key != left_out);
    let mut text = "{".to_owned();
    write_members(&mut text, &others);
    text.push('}');
    text
}

fn write_value(text: &mut String, value: &Value) {
    match value {
        Value::Null => text.push_str("null"),
        Value::Bool(true) => text.push_str("true"),
        Value::Bool(false) => text.push_str("false"),
        // A value holds finite numbers only. Whole ones beyond 2^53 are rounded like any other.
        Value::Number(number) => write_number(text, number.as_f64().unwrap_or(0.0)),
        Value::String(string) => write_string(text, string),
        Value::Array(items) => {
            text.push('[');
            for (n, item) in items.iter().enumerate() {
                if n > 0 {
                    text.push(',');
                }
                write_value(text, item);
            }
            text.push(']');
        }
        Value::Object(members) => {
            text.push('{');
            write_members(text, &sorted(members));
            text.push('}');
        }
    }
}

type Member<'v> = (&'v String, &'v Value);

fn write_members(text: &mut String, members: &[Member<'_>]) {
    for (n, (key, value)) in members.iter().enumerate() {
        if n > 0 {
            text.push(',');
        }
        write_string(text, key);
        text.push(':');
        write_value(text, value);
    }
}

fn sorted(members: &Map<String, Value>) -> Vec<Member<'_>> {
    let mut members: Vec<Member<'_>> = members.iter().collect();
    members.sort_unstable_by(|(a, _), (b, _)| by_units(a, b));
    members
}

/// The order of two keys by their UTF-16 units; that of ASCII is that of its bytes.
fn by_units(a: &str, b: &str) -> Ordering {
    if a.is_ascii() && b.is_ascii() {
        a.cmp(b)
    } else {
        a.encode_utf16().cmp(b.encode_utf16())
    }
}

/// RFC 8785 section 3.2.2.2.
fn write_string(text: &mut String, string: &str) {
    text.push('"');
    let mut rest = string;
    // What needs no sign before it goes over in one piece.
    while let Some(at) = rest.bytes().position(must_be_escaped) {
        let (plain, special) = rest.split_at(at);
        text.push_str(plain);
        let mut special = special.chars();
        if let Some(c) = special.next() {
            escape(text, c);
        }
        rest = special.as_str();
    }
    text.push_str(rest);
    text.push('"');
}

fn must_be_escaped(byte: u8) -> bool {
    matches!(byte, b'"' | b'\\' | 0..b' ')
}

fn escape(text: &mut String, c: char) {
    let short = match c {
        '"' | '\\' => c,
        '\u{8}' => 'b',
        '\t' => 't',
        '\n' => 'n',
        '\u{c}' => 'f',
        '\r' => 'r',
        c => {
            // Writing to a text cannot fail.
            let _ = write!(text, "\\u{:04x}", u32::from(c));
            return;
        }
    };
    text.push('\\');
    text.push(short);
}

/// RFC 8785 section 3.2.2.3, which is ECMAScript's `Number::toString`: the fewest digits that read as the
/// same number, plain from 1e-6 to below 1e21.
fn write_number(text: &mut String, number: f64) {
    if let Some(whole) = whole(number) {
        // Writing to a text cannot fail.
        let _ = write!(text, "{whole}");
        return;
    }
    if (1e-6..1e21).contains(&number.abs()) {
        let start = text.len();
        // Writing to a text cannot fail.
        let _ = write!(text, "{number}");
        // Of so few digits there is one shortest text, and the standard library writes it the same.
        if text.len() - start < 15 {
            return;
        }
        text.truncate(start);
    }
    let (digits, point) = shortest(number.abs());
    let count = digits.len();
    if number < 0.0 {
        text.push('-');
    }
    match usize::try_from(point) {
        Ok(point) if (1..=21).contains(&point) => {
            let (whole, rest) = digits.split_at(point.min(count));
            text.push_str(whole);
            text.extend(std::iter::repeat_n('0', point.saturating_sub(count)));
            if !rest.is_empty() {
                text.push('.');
                text.push_str(rest);
            }
        }
        _ if (-5..=0).contains(&point) => {
            text.push_str("0.");
            text.extend(std::iter::repeat_n('0', point.unsigned_abs() as usize));
            text.push_str(&digits);
        }
        _ => {
            let (first, rest) = digits.split_at(1);
            text.push_str(first);
            if !rest.is_empty() {
                text.push('.');
                text.push_str(rest);
            }
            // Writing to a text cannot fail.
            let _ = write!(text, "e{:+}", point - 1);
        }
    }
}

/// The largest number up to which every whole number is a double.
pub(super) const MOST_WHOLE: i64 = 1 << 53;

/// A number as a whole one, where every whole number of its size is a double.
pub(super) fn whole(value: f64) -> Option<i64> {
    #[allow(clippy::cast_possible_truncation, reason = "whole and within 2^53")]
    (value.fract() == 0.0 && value.abs() <= MOST_WHOLE as f64).then_some(value as i64)
}

/// The fewest digits that read as the number, and after how many of them the point stands.
fn shortest(number: f64) -> (String, i32) {
    let text = format!("{number:e}");
    let (digits, exponent) = text.split_once('e').unwrap_or((&text, "0"));
    let mut digits = digits.replace('.', "");
    // Where two such texts are equally near, the standard library takes the upper, ECMAScript the even
    // one. Numbers of fewer digits are exact, and then there is no second.
    if digits.len() >= 15 {
        let exact = format!("{number:.30e}").replace('.', "");
        let exact = exact.split('e').next().unwrap_or_default();
        let even = &exact[..digits.len()];
        let half = exact[digits.len()..].trim_end_matches('0') == "5";
        if half && even.ends_with(['0', '2', '4', '6', '8']) {
            even.clone_into(&mut digits);
        }
    }
    (digits, exponent.parse::<i32>().unwrap_or(0) + 1)
}

/// SHA-256 in lower-case hexadecimal.
pub(super) fn sha256(bytes: &[u8]) -> String {
    let mut hash = Hash::default();
    hash.add(bytes);
    hash.hex()
}

/// SHA-256 of a text that comes piece by piece.
#[derive(Clone, Default)]
pub(super) struct Hash(Sha256);

impl Hash {
    /// Takes in the next piece.
    pub(super) fn add(&mut self, bytes: &[u8]) {
        self.0.update(bytes);
    }

    /// The hash of all that was taken in, in lower-case hexadecimal.
    pub(super) fn hex(self) -> String {
        let mut hex = String::with_capacity(64);
        for byte in self.0.finalize() {
            // Writing to a text cannot fail.
            let _ = write!(hex, "{byte:02x}");
        }
        hex
    }
}

impl std::fmt::Debug for Hash {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Hash")
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn again(text: &str) -> String {
        canonical(&crate::file::strict::parse(text.as_bytes()).unwrap())
    }

    /// RFC 8785 section 3.2.2: the text as it comes, and section 3.2.4: the bytes that it must give.
    /// Copied from the test files of the canonicaliser crate, which took them from the RFC.
    #[test]
    fn the_example_of_the_rfc() {
        let came = r#"{
            "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
            "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
            "literals": [null, true, false]
        }"#;
        let bytes = "7b 22 6c 69 74 65 72 61 6c 73 22 3a 5b 6e 75 6c 6c 2c 74 72 \
                     75 65 2c 66 61 6c 73 65 5d 2c 22 6e 75 6d 62 65 72 73 22 3a \
                     5b 33 33 33 33 33 33 33 33 33 2e 33 33 33 33 33 33 33 2c 31 \
                     65 2b 33 30 2c 34 2e 35 2c 30 2e 30 30 32 2c 31 65 2d 32 37 \
                     5d 2c 22 73 74 72 69 6e 67 22 3a 22 e2 82 ac 24 5c 75 30 30 \
                     30 66 5c 6e 41 27 42 5c 22 5c 5c 5c 5c 5c 22 2f 22 7d";
        let wanted: Vec<u8> = bytes
            .split_whitespace()
            .map(|hex| u8::from_str_radix(hex, 16).unwrap())
            .collect();
        assert_eq!(again(came).as_bytes(), wanted);
    }

    /// RFC 8785 section 3.2.3: members are sorted by UTF-16 units, so U+1F600 stands before U+FB33.
    #[test]
    fn members_are_sorted_as_the_rfc_shows() {
        let came = r#"{
            "\u20ac": "Euro Sign",
            "\r": "Carriage Return",
            "\ufb33": "Hebrew Letter Dalet With Dagesh",
            "1": "One",
            "\ud83d\ude00": "Emoji: Grinning Face",
            "\u0080": "Control",
            "\u00f6": "Latin Small Letter O With Diaeresis"
        }"#;
        let order = [
            "Carriage Return",
            "One",
            "Control",
            "Latin Small Letter O With Diaeresis",
            "Euro Sign",
            "Emoji: Grinning Face",
            "Hebrew Letter Dalet With Dagesh",
        ];
        let text = again(came);
        let places: Vec<usize> = order.iter().map(|name| text.find(name).unwrap()).collect();
        assert!(places.is_sorted(), "{text}");
    }

    /// RFC 8785 appendix B: a double's bits and its text. From memory, held against the test files of
    /// the canonicaliser crate.
    #[test]
    fn numbers_are_written_as_the_rfc_lists() {
        for (bits, wanted) in [
            (0x0000_0000_0000_0000, "0"),
            (0x8000_0000_0000_0000, "0"),
            (0x0000_0000_0000_0001, "5e-324"),
            (0x8000_0000_0000_0001, "-5e-324"),
            (0x7fef_ffff_ffff_ffff, "1.7976931348623157e+308"),
            (0xffef_ffff_ffff_ffff, "-1.7976931348623157e+308"),
            (0x4340_0000_0000_0000, "9007199254740992"),
            (0xc340_0000_0000_0000, "-9007199254740992"),
            (0x4430_0000_0000_0000, "295147905179352830000"),
            (0x44b5_2d02_c7e1_4af5, "9.999999999999997e+22"),
            (0x44b5_2d02_c7e1_4af6, "1e+23"),
            (0x44b5_2d02_c7e1_4af7, "1.0000000000000001e+23"),
            (0x444b_1ae4_d6e2_ef4e, "999999999999999700000"),
            (0x444b_1ae4_d6e2_ef4f, "999999999999999900000"),
            (0x444b_1ae4_d6e2_ef50, "1e+21"),
            (0x3eb0_c6f7_a0b5_ed8c, "9.999999999999997e-7"),
            (0x3eb0_c6f7_a0b5_ed8d, "0.000001"),
            (0x41b3_de43_5555_5553, "333333333.3333332"),
            (0x41b3_de43_5555_5554, "333333333.33333325"),
            (0x41b3_de43_5555_5555, "333333333.3333333"),
            (0x41b3_de43_5555_5556, "333333333.3333334"),
            (0x41b3_de43_5555_5557, "333333333.33333343"),
            (0xbecb_f647_612f_3696, "-0.0000033333333333333333"),
            (0x4314_3ff3_c1cb_0959, "1424953923781206.2"),
        ] {
            let number = f64::from_bits(bits);
            assert_eq!(canonical(&number.into()), wanted);
            // And the same through the reader, which keeps whole numbers whole.
            assert_eq!(again(wanted), wanted);
        }
        assert_eq!(again("9007199254740993"), "9007199254740992");
        assert_eq!(again("[1.0, -0.0, 1e2]"), "[1,0,100]");
    }

    /// FIPS 180-4's one-block example (as published beside it, from memory), and the empty message.
    #[test]
    fn sha256_of_published_examples() {
        assert_eq!(
            sha256(b"abc"),
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
        );
        assert_eq!(
            sha256(b"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"
        );
        assert_eq!(
            sha256(b""),
            "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"
        );
    }

    fn any_value() -> impl Strategy<Value = Value> {
        let leaf = prop_oneof![
            Just(Value::Null),
            any::<bool>().prop_map(Value::from),
            any::<i64>().prop_map(Value::from),
            any::<u64>().prop_map(Value::from),
            any::<f64>().prop_map(Value::from),
            (0.0..1e3_f64).prop_map(Value::from),
            any::<String>().prop_map(Value::from),
            "[\\x00-\\x7f]{0,8}".prop_map(Value::from),
        ];
        leaf.prop_recursive(3, 40, 6, |inner| {
            prop_oneof![
                prop::collection::vec(inner.clone(), 0..6).prop_map(Value::from),
                prop::collection::vec((any::<String>(), inner), 0..6)
                    .prop_map(|members| Value::Object(members.into_iter().collect())),
            ]
        })
    }

    proptest! {
        /// Another writer of the same form, in tests only, writes the same bytes.
        #[test]
        fn another_writer_agrees(value in any_value()) {
            let wanted = serde_json_canonicalizer::to_string(&value).unwrap();
            prop_assert_eq!(canonical(&value), wanted);
        }

        #[test]
        fn every_bit_pattern_of_a_number_agrees(bits in any::<u64>()) {
            // Every second one where a tie of two shortest texts is likely.
            let tie = (bits >> 12 | 1 << 51) as f64 / 4.0;
            let number = if bits % 2 == 0 { f64::from_bits(bits) } else { tie };
            let value = Value::from(number);
            let wanted = serde_json_canonicalizer::to_string(&value).unwrap();
            prop_assert_eq!(canonical(&value), wanted);
        }
    }
}

//! The canonical form of JSON (RFC 8785) and the hash over it (SHA-256, FIPS 180-4).

use std::fmt::Write;

use serde_json::Value;
use sha2::{Digest, Sha256};

/// The canonical form of RFC 8785: members sorted by their keys' UTF-16 units, numbers as ECMAScript
/// writes them, no white space. Equal values give equal bytes everywhere.
pub fn canonical(value: &Value) -> String {
    // A value holds text keys, each once, and finite numbers only, so there is always a form.
    serde_json_canonicalizer::to_string(value).unwrap_or_default()
}

/// SHA-256 in lower-case hexadecimal.
pub(super) fn sha256(bytes: &[u8]) -> String {
    let mut hex = String::with_capacity(64);
    for byte in Sha256::digest(bytes) {
        // Writing to a text cannot fail.
        let _ = write!(hex, "{byte:02x}");
    }
    hex
}

#[cfg(test)]
mod tests {
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
}

//! Bytes as digits 0-9 a-f, two each.

use std::fmt::{self, Write};

/// Reads the text form that [`write`] writes of so many bytes, and no other.
pub(crate) fn read<const BYTES: usize>(text: &str) -> Option<[u8; BYTES]> {
    let (pairs, []) = text.as_bytes().as_chunks::<2>() else {
        return None;
    };
    let pairs: &[[u8; 2]; BYTES] = pairs.try_into().ok()?;
    let mut bytes = [0; BYTES];
    for (byte, [high, low]) in bytes.iter_mut().zip(pairs) {
        *byte = digit(*high)? << 4 | digit(*low)?;
    }
    Some(bytes)
}

fn digit(letter: u8) -> Option<u8> {
    match letter {
        b'0'..=b'9' => Some(letter - b'0'),
        b'a'..=b'f' => Some(letter - b'a' + 10),
        _ => None,
    }
}

/// Writes bytes.
pub(crate) fn write(bytes: &[u8], to: &mut impl Write) -> fmt::Result {
    bytes.iter().try_for_each(|byte| write!(to, "{byte:02x}"))
}

/// Bytes as a text.
pub(crate) fn text(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(bytes.len() * 2);
    // Writing into a string never fails.
    let _written = write(bytes, &mut text);
    text
}

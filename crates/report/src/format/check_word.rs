//! A digest as a word to be read out: two people with the same word have the same card.

/// Consonants for four bits, vowels for two.
const CONSONANTS: &[u8; 16] = b"bdfghjklmnprstvz";
const VOWELS: &[u8; 4] = b"aiou";

/// How many groups of five letters: 64 bits of the digest.
const GROUPS: usize = 4;

/// The check word of a digest in hexadecimal, with or without `sha256:` before it; nothing where it is no digest.
///
/// Sixteen bits make five letters, consonant and vowel by turns, so that each group can be spoken in any of the
/// languages here and heard over an engine.
///
/// # Source
///
/// D. S. Wilkerson, *A Proposal for Proquints: Identifiers that are Readable, Spellable, and Pronounceable*,
/// arXiv 0901.4016 (2009).
pub fn check_word(digest: &str) -> String {
    let hex = digest.strip_prefix("sha256:").unwrap_or(digest);
    let groups: Option<Vec<String>> = (0..GROUPS)
        .map(|group| {
            let bits = hex.get(group * 4..group * 4 + 4)?;
            u16::from_str_radix(bits, 16).ok().map(spoken)
        })
        .collect();
    groups.unwrap_or_default().join("-")
}

fn spoken(bits: u16) -> String {
    let consonant = |shift: u16| char::from(CONSONANTS[usize::from(bits >> shift & 0xf)]);
    let vowel = |shift: u16| char::from(VOWELS[usize::from(bits >> shift & 0x3)]);
    [
        consonant(12),
        vowel(10),
        consonant(6),
        vowel(4),
        consonant(0),
    ]
    .iter()
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The addresses that the proposal writes out, two groups each, cited from memory: 127.0.0.1, 63.84.220.193, 63.118.7.35,
    /// 140.98.193.141, 64.255.6.200, 128.30.52.45, 147.67.119.2, 212.58.253.68, 216.35.68.215.
    #[test]
    fn groups_are_those_of_the_proposal() {
        for (bits, said) in [
            (0x7f00_0001, "lusab-babad"),
            (0x3f54_dcc1, "gutih-tugad"),
            (0x3f76_0723, "gutuk-bisog"),
            (0x8c62_c18d, "mudof-sakat"),
            (0x40ff_06c8, "haguz-biram"),
            (0x801e_342d, "mabiv-gibot"),
            (0x9343_7702, "natag-lisaf"),
            (0xd43a_fd44, "tibup-zujah"),
            (0xd823_44d7, "tobog-higil"),
        ] {
            let [high, low] =
                [bits >> 16, bits & 0xffff].map(|half: u32| u16::try_from(half).unwrap());
            assert_eq!([spoken(high), spoken(low)].join("-"), said);
        }
    }

    #[test]
    fn a_word_is_made_of_the_first_sixty_four_bits() {
        let word = check_word("sha256:7f0000013f54dcc1ffffffff");
        assert_eq!(word, "lusab-babad-gutih-tugad");
        assert_eq!(check_word("7f0000013f54dcc1"), word);
    }

    #[test]
    fn what_is_no_digest_has_no_word() {
        for text in [
            "",
            "sha256:",
            "sha256:7f",
            "7f0000013f54dcc-",
            "é00000000000000000",
        ] {
            assert_eq!(check_word(text), "", "{text}");
        }
    }
}

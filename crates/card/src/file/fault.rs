//! What can be wrong in a file, by kind: `Display` says it in English, the catalogue in any language.

use std::fmt;

use serde_json::Value;

use super::MOST_DEPTH;
use crate::{gauging::MOST_DIGITS, ids::LONGEST_NAME};

/// What makes a text no JSON as it is allowed here.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum JsonFault {
    /// It ends too early.
    #[error("it ends in the middle")]
    CutShort,
    /// No value where one must stand.
    #[error("this is not a JSON value")]
    Value,
    /// A key that is not a text.
    #[error("a key must be a text in quotes")]
    Key,
    /// Another sign than the one that must stand here.
    #[error("allowed here is `{sign}`")]
    Sign {
        /// The sign.
        sign: char,
    },
    /// A list or an object that neither goes on nor ends.
    #[error("allowed here is `,` or `{end}`")]
    Unended {
        /// What would end it.
        end: char,
    },
    /// A comma with nothing after it.
    #[error("there is a comma too many")]
    Comma,
    /// More text after the value.
    #[error("there is more after the end")]
    Trailing,
    /// A line break or the like within a text.
    #[error("a text has a control character in it, such as a line break")]
    Control,
    /// A `\` with something after it that means nothing.
    #[error("a text has a `\\` in it that means nothing")]
    Escape,
    /// Bytes that are not UTF-8.
    #[error("a text has bytes in it that are no characters: allowed is UTF-8")]
    Characters,
    /// A number that is written wrongly.
    #[error("a number is not written as JSON writes numbers")]
    Number,
    /// A number that no double can hold.
    #[error("a number is too large to be kept")]
    Large,
    /// A list or an object within too many others.
    #[error("nested deeper than {MOST_DEPTH}")]
    Deep,
    /// A key that stands twice in one object.
    #[error("the key `{key}` stands twice")]
    Twice {
        /// The key, cut to a readable length.
        key: String,
    },
    /// What the parser alone can say, in English.
    #[error("{text}")]
    Other {
        /// Its words, cut to a readable length.
        text: String,
    },
}

impl JsonFault {
    /// The kind of what the parser says. It has kinds of its own but shows only their texts.
    pub(super) fn of(error: &serde_json::Error) -> Self {
        if error.is_eof() {
            return Self::CutShort;
        }
        let text = error.to_string();
        let text = text
            .rsplit_once(" at line ")
            .map_or(&*text, |(what, _)| what);
        match text {
            "expected value" | "expected ident" => Self::Value,
            "key must be a string" | "expected `\"`" => Self::Key,
            "expected `:`" => Self::Sign { sign: ':' },
            "expected `,` or `]`" => Self::Unended { end: ']' },
            "expected `,` or `}`" => Self::Unended { end: '}' },
            "trailing comma" => Self::Comma,
            "trailing characters" => Self::Trailing,
            "invalid escape"
            | "lone leading surrogate in hex escape"
            | "unexpected end of hex escape" => Self::Escape,
            "invalid unicode code point" => Self::Characters,
            "invalid number" => Self::Number,
            "number out of range" => Self::Large,
            control if control.starts_with("control character") => Self::Control,
            other => Self::Other {
                text: readable(other),
            },
        }
    }
}

/// What is wrong with a member of a file, or with an item of a list in it.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum FieldFault {
    /// A member that must be there is not.
    #[error("the member `{name}` is missing")]
    Missing {
        /// Its name.
        name: &'static str,
    },
    /// One kind of value where another must stand.
    #[error("it must be {wanted}, not {given}")]
    Shape {
        /// What must stand there.
        wanted: Shape,
        /// What does.
        given: Shape,
    },
    /// A number that is not whole, or beyond those that a file keeps exact.
    #[error("{given} is not a whole number")]
    NotWhole {
        /// The number as the file writes it.
        given: String,
    },
    /// A whole number out of its range.
    #[error("{given} is out of range: allowed is {low} to {high}")]
    OutOfRange {
        /// The number.
        given: i64,
        /// The least allowed.
        low: i64,
        /// The most allowed.
        high: i64,
    },
    /// A word that is none of those allowed.
    #[error("`{given}` is not one of those allowed: {}", listed(allowed))]
    Unknown {
        /// The word, cut to a readable length.
        given: String,
        /// Those allowed.
        allowed: &'static [&'static str],
    },
    /// An object that says what it is by its one member, with none or several.
    #[error("it has {given} members: allowed is 1")]
    OneMember {
        /// How many it has.
        given: usize,
    },
    /// A list of the wrong length.
    #[error("it has {given} items: allowed is {wanted}")]
    Length {
        /// How many it has.
        given: usize,
        /// How many it must have.
        wanted: usize,
    },
    /// A text that is no name for a place, a scale or the like.
    #[error(
        "`{given}` is not a name: allowed are 1 to {LONGEST_NAME} letters a-z A-Z, digits, `_`, `-` and `.`, in steps parted by `/`"
    )]
    Name {
        /// The text, cut to a readable length.
        given: String,
    },
    /// A text that is not the digest of a photo.
    #[error("`{given}` is not a SHA-256: allowed are 64 digits 0-9 a-f")]
    Sha256 {
        /// The text, cut to a readable length.
        given: String,
    },
    /// A text that is no UUID as it is written here.
    #[error("`{given}` is not a UUID: allowed are 8-4-4-4-12 digits 0-9 a-f")]
    Uuid {
        /// The text, cut to a readable length.
        given: String,
    },
    /// A text that is not a number as it was typed.
    #[error(
        "`{given}` is not a number as text: allowed are up to {} digits with one `.`",
        MOST_DIGITS
    )]
    Decimal {
        /// The text, cut to a readable length.
        given: String,
    },
    /// A text that is no instant.
    #[error(
        "`{given}` is not an instant: allowed is RFC 3339, such as `2026-11-24T12:22:07Z`, in the years 0000 to 9999"
    )]
    Instant {
        /// The text, cut to a readable length.
        given: String,
    },
    /// No version of the format.
    #[error("it must be a whole number from 1 to {known}")]
    Version {
        /// The newest version that is read.
        known: u64,
    },
    /// What has no kind here, in English.
    #[error("{text}")]
    Other {
        /// The words, cut to a readable length.
        text: String,
    },
}

impl FieldFault {
    /// A value of another kind than the one wanted.
    pub(super) fn shape(wanted: Shape, given: &Value) -> Self {
        Self::Shape {
            wanted,
            given: Shape::of(given),
        }
    }
}

/// The kinds of JSON values.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// `null`.
    Null,
    /// `true` or `false`.
    Truth,
    /// A number.
    Number,
    /// A text.
    Text,
    /// A list.
    List,
    /// An object.
    Object,
}

impl Shape {
    /// The kind of a value.
    fn of(value: &Value) -> Self {
        match value {
            Value::Null => Self::Null,
            Value::Bool(_) => Self::Truth,
            Value::Number(_) => Self::Number,
            Value::String(_) => Self::Text,
            Value::Array(_) => Self::List,
            Value::Object(_) => Self::Object,
        }
    }
}

impl fmt::Display for Shape {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Null => "null",
            Self::Truth => "true or false",
            Self::Number => "a number",
            Self::Text => "a text",
            Self::List => "a list",
            Self::Object => "an object",
        })
    }
}

fn listed(allowed: &[&str]) -> String {
    let quoted: Vec<String> = allowed.iter().map(|word| format!("`{word}`")).collect();
    quoted.join(", ")
}

/// Text out of a file, cut to a length that a message can carry.
pub(super) fn readable(text: &str) -> String {
    const LONGEST: usize = 500;
    match text.char_indices().nth(LONGEST) {
        Some((end, _)) => format!("{}…", &text[..end]),
        None => text.to_owned(),
    }
}

/// A place as a message names it: the file itself has no way to it.
pub(super) fn named(place: &str) -> &str {
    if place.is_empty() { "the file" } else { place }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::file::strict::parse;

    fn fault(text: &[u8]) -> JsonFault {
        parse(text).unwrap_err().what
    }

    /// The parser's kinds are known by their texts alone, so each is made to happen here.
    #[test]
    fn every_fault_of_a_text_has_its_kind() {
        use JsonFault as F;
        let cases: [(&[u8], F); 31] = [
            (b"", F::CutShort),
            (b"[", F::CutShort),
            (b"[1,", F::CutShort),
            (b"{\"a\":1", F::CutShort),
            (b"\"a", F::CutShort),
            (b"tru", F::CutShort),
            (b"nul!", F::Value),
            (b"'a'", F::Value),
            (b"{\"a\":}", F::Value),
            (b"{a:1}", F::Key),
            (b"{1:1}", F::Key),
            (b"{\"a\":1,b:2}", F::Key),
            (b"{\"a\" 1}", F::Sign { sign: ':' }),
            (b"[1 2]", F::Unended { end: ']' }),
            (b"{\"a\":1 2}", F::Unended { end: '}' }),
            (b"[1,]", F::Comma),
            (b"{\"a\":1,}", F::Comma),
            (b"1 2", F::Trailing),
            (b"\"a\nb\"", F::Control),
            (b"\"\\x\"", F::Escape),
            (b"\"\\u12zz\"", F::Escape),
            (b"\"\\ud800\"", F::Escape),
            (b"\"\\ud800\\u0041\"", F::Escape),
            (b"\"\xff\"", F::Characters),
            (b"-", F::CutShort),
            (b"01", F::Number),
            (b"1.x", F::Number),
            (b"1e999", F::Large),
            (b"-1e999", F::Large),
            (
                b"{\"a\":1,\"a\":2}",
                F::Twice {
                    key: "a".to_owned(),
                },
            ),
            (&[b'['; 65], F::Deep),
        ];
        for (text, wanted) in cases {
            assert_eq!(fault(text), wanted, "{}", String::from_utf8_lossy(text));
        }
    }
}

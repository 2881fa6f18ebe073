//! How a group of words is declared, and how a sentence is filled in.
//!
//! The plural rule is the one that English and Spanish share for whole numbers (CLDR: *one* for 1,
//! *other* for the rest). They part where decimals are counted (one takes *other* for 1.0, the other
//! *one* for 1,0), so only whole numbers choose a form; a test holds to that.

use std::fmt::Display;

/// Declares a group of words with its English text.
///
/// Each word is a field, so a language that lacks one does not compile. A sentence that takes values
/// is a field too, its template, and a method of the same name that fills it in:
///
/// - `{n}` puts the value `n` there;
/// - `{n?rating:ratings}` puts the first text where `n` reads "1" and the second elsewhere.
macro_rules! words {
    ($(#[$doc:meta])* $group:ident {
        $($name:ident $(($($arg:ident: $kind:ty),+))? = $text:literal;)+
    }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug)]
        pub struct $group {
            $(#[doc = concat!("\u{201c}", $text, "\u{201d}")] pub $name: &'static str,)+
        }

        impl $group {
            /// In English.
            pub const ENGLISH: Self = Self { $($name: $text,)+ };

            $($(
                #[doc = concat!("\u{201c}", $text, "\u{201d}")]
                pub fn $name(&self, $($arg: $kind),+) -> String {
                    $crate::words::catalogue::fill(
                        self.$name,
                        &[$((stringify!($arg), &$arg as &dyn std::fmt::Display)),+],
                    )
                }
            )?)+

            /// Every word.
            #[cfg(test)]
            pub(crate) fn all(&self) -> Vec<crate::words::catalogue::Word> {
                vec![$($crate::words::catalogue::Word {
                    name: stringify!($name),
                    text: self.$name,
                    values: vec![$($((stringify!($arg), stringify!($kind))),+)?],
                }),+]
            }
        }
    };
}
pub(super) use words;

/// A word as the tests see it.
#[cfg(test)]
#[derive(Debug)]
pub(crate) struct Word {
    /// Its field.
    pub(crate) name: &'static str,
    /// Its text, or its template.
    pub(crate) text: &'static str,
    /// The values that it takes, each with its type.
    pub(crate) values: Vec<(&'static str, &'static str)>,
}

/// Fills values into a template; see [`words!`].
pub(super) fn fill(template: &str, values: &[(&str, &dyn Display)]) -> String {
    let mut text = String::with_capacity(template.len() + 16);
    let mut rest = template;
    while let Some((before, after)) = rest.split_once('{') {
        let Some((hole, after)) = after.split_once('}') else {
            break;
        };
        let (name, forms) = match hole.split_once('?') {
            Some((name, forms)) => (name, forms.split_once(':')),
            None => (hole, None),
        };
        let value = values
            .iter()
            .find(|(known, _)| *known == name)
            .map(|(_, value)| value.to_string())
            .unwrap_or_default();
        text.push_str(before);
        text.push_str(match forms {
            Some((one, _)) if value == "1" => one,
            Some((_, more)) => more,
            None => &value,
        });
        rest = after;
    }
    text.push_str(rest);
    text
}

/// The names of the values that a template takes, in order, each with its plural forms if it chooses
/// between two.
#[cfg(test)]
pub(crate) fn holes(template: &str) -> Vec<(&str, Option<&str>)> {
    template
        .split('{')
        .skip(1)
        .filter_map(|part| part.split_once('}'))
        .map(|(hole, _)| match hole.split_once('?') {
            Some((name, forms)) => (name, Some(forms)),
            None => (hole, None),
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_and_plural_forms_are_filled_in() {
        let text = "{n} {n?rating:ratings} by {who}";
        assert_eq!(fill(text, &[("n", &1), ("who", &"A")]), "1 rating by A");
        assert_eq!(fill(text, &[("n", &0), ("who", &"B")]), "0 ratings by B");
        let forms = Some("rating:ratings");
        assert_eq!(holes(text), [("n", None), ("n", forms), ("who", None)]);
    }

    #[test]
    fn a_value_is_not_read_as_a_template() {
        assert_eq!(fill("a {x} b", &[("x", &"{x}")]), "a {x} b");
    }
}

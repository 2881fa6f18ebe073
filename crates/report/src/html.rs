//! Text into HTML and SVG.

use std::borrow::Cow;

/// Text made safe for the inside of an element and for a quoted attribute.
///
/// The five characters with a meaning of their own become references. Left out is what XML cannot hold
/// at all (control characters other than tab and line ends), and what turns the direction of the text
/// after it: a name must not turn the sentence that it stands in. Words written from right to left do so
/// by themselves.
pub fn escape(text: &str) -> Cow<'_, str> {
    let plain = |c: char| !matches!(c, '&' | '<' | '>' | '"' | '\'') && !left_out(c);
    if text.chars().all(plain) {
        return Cow::Borrowed(text);
    }
    let mut safe = String::with_capacity(text.len() + 16);
    for c in text.chars() {
        match c {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            '\'' => safe.push_str("&#39;"),
            c if left_out(c) => {}
            c => safe.push(c),
        }
    }
    Cow::Owned(safe)
}

/// Whether XML 1.0 has no way to hold the character, or it is one of the explicit directional
/// formatting characters of Unicode Standard Annex 9, 2.1 to 2.4.
fn left_out(c: char) -> bool {
    let unwritable = matches!(c, '\0'..='\u{8}' | '\u{b}' | '\u{c}' | '\u{e}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}');
    let turning = matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    unwritable || turning
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_has_a_meaning_is_escaped() {
        let hostile = "<script>alert(\"a\" & 'b')</script>";
        assert_eq!(
            escape(hostile),
            "&lt;script&gt;alert(&quot;a&quot; &amp; &#39;b&#39;)&lt;/script&gt;"
        );
        assert!(matches!(escape("cylinder 3, 0.5 µm"), Cow::Borrowed(_)));
    }

    #[test]
    fn what_cannot_be_written_is_left_out() {
        assert_eq!(escape("a\0b\u{1b}[2Jc\td\n"), "ab[2Jc\td\n");
    }

    #[test]
    fn a_name_does_not_turn_what_comes_after_it() {
        assert_eq!(escape("\u{202e}evil\u{2067} שלום"), "evil שלום");
    }
}

//! A page that carries its card: the hand-over, `NAME.card.html`.
//!
//! The card's file stands in the page as the address of a link, so that a browser gives it back without
//! Ringland:
//!
//! ```text
//! <a download="NAME.card.json" href="data:application/json;base64,…">
//! ```
//!
//! A text in the page cannot look like that address in its quotes, as quotes in a text are escaped.

use std::borrow::Cow;

use base64ct::{Base64, Encoding};

use super::{MOST_BYTES, read::FileError};

/// What the address of a carried card begins with.
const BEGINS: &str = "data:application/json;base64,";
/// What stands before it.
const QUOTED: &str = "href=\"data:application/json;base64,";
/// The largest page read, in bytes: the largest card, four bytes for three, and room for what is shown of it.
const MOST_PAGE_BYTES: usize = MOST_BYTES / 3 * 4 + (64 << 20);

/// The address that holds a card's file, for a link in a page.
pub fn carrying(file: &str) -> String {
    [BEGINS, &Base64::encode_string(file.as_bytes())].concat()
}

/// Whether the bytes begin as a page does, and not as a card's own file.
pub fn is_page(bytes: &[u8]) -> bool {
    bytes.trim_ascii_start().starts_with(b"<") || bytes.starts_with(b"\xef\xbb\xbf<")
}

/// The card's file in the bytes of a file: what a page carries, or else the bytes themselves.
///
/// # Errors
///
/// [`FileError::NoCardInPage`] where a page carries none, or several, or one that is cut short;
/// [`FileError::TooLarge`].
pub fn carried(bytes: &[u8]) -> Result<Cow<'_, [u8]>, FileError> {
    if !is_page(bytes) {
        return Ok(Cow::Borrowed(bytes));
    }
    if bytes.len() > MOST_PAGE_BYTES {
        let given = bytes.len();
        return Err(FileError::TooLarge { given });
    }
    // What is no text holds no card: the address is plain ASCII.
    let page = std::str::from_utf8(bytes).map_err(|_bytes| FileError::NoCardInPage)?;
    let mut addresses = page.match_indices(QUOTED);
    let (Some((at, _)), None) = (addresses.next(), addresses.next()) else {
        return Err(FileError::NoCardInPage);
    };
    let held = page[at + QUOTED.len()..].split_once('"');
    let file = held.and_then(|(held, _)| Base64::decode_vec(held).ok());
    file.map(Cow::Owned).ok_or(FileError::NoCardInPage)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn page(inside: &str) -> String {
        format!("<!doctype html><p>data:application/json;base64,AAAA</p><a {inside}>x</a>")
    }

    #[test]
    fn a_page_gives_back_what_it_carries() {
        for file in ["", "{}", "{\"é\":\"</script>\"}", "abc"] {
            let page = page(&format!("href=\"{}\"", carrying(file)));
            assert_eq!(*carried(page.as_bytes()).unwrap(), *file.as_bytes());
        }
    }

    /// RFC 4648 section 10.
    #[test]
    fn base64_is_that_of_the_standard() {
        for (text, held) in [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foobar", "Zm9vYmFy"),
        ] {
            assert_eq!(carrying(text), [BEGINS, held].concat());
        }
    }

    #[test]
    fn what_is_no_page_is_left_as_it_is() {
        assert_eq!(*carried(b" {}").unwrap(), *b" {}");
        assert_eq!(*carried(b"").unwrap(), *b"");
    }

    #[test]
    fn a_page_with_no_card_several_or_half_of_one_is_refused() {
        let whole = format!("href=\"{}\"", carrying("{}"));
        let cut = "href=\"data:application/json;base64,e30";
        for inside in [
            "",
            cut,
            &[cut, "*\""].concat(),
            &[&*whole, " ", &whole].concat(),
        ] {
            let refused = carried(page(inside).as_bytes()).map(Cow::into_owned);
            assert_eq!(refused, Err(FileError::NoCardInPage), "{inside}");
        }
        assert_eq!(
            carried(b"<\xff").map(Cow::into_owned),
            Err(FileError::NoCardInPage)
        );
    }
}

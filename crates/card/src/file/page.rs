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

use std::{borrow::Cow, collections::BTreeMap};

use base64ct::{Base64, Encoding};

use super::read::FileError;
use crate::photo::{PhotoDigest, Picture, PictureKind};

/// What the address of a carried card begins with.
const BEGINS: &str = "data:application/json;base64,";
/// What stands before it.
const QUOTED: &str = "href=\"data:application/json;base64,";
/// The largest page read, in bytes: 512 MiB, as it may show many photos.
const MOST_PAGE_BYTES: usize = 512 << 20;

/// The address that holds a card's file, for a link in a page.
pub fn carrying(file: &str) -> String {
    [BEGINS, &Base64::encode_string(file.as_bytes())].concat()
}

/// What the address of a picture begins with, before its media type.
const PICTURE: &str = "src=\"data:";

/// The address that holds a picture, for an image in a page.
pub fn showing(kind: PictureKind, bytes: &[u8]) -> String {
    let held = Base64::encode_string(bytes);
    ["data:", kind.media_type(), ";base64,", &held].concat()
}

/// How many bytes a page has for a picture of so many: four for three.
pub fn shown_bytes(bytes: u64) -> u64 {
    bytes.div_ceil(3) * 4
}

/// The photos in a page, by what they are. What is no photo is passed over: a page is not asked to be sound where it
/// shows something.
pub fn shown(page: &[u8]) -> BTreeMap<PhotoDigest, Vec<u8>> {
    let page = std::str::from_utf8(page).unwrap_or_default();
    let picture = |(at, _): (usize, &str)| {
        let (address, _) = page[at + PICTURE.len()..].split_once('"')?;
        let bytes = Base64::decode_vec(address.split_once(";base64,")?.1).ok()?;
        Picture::of(&bytes).ok()?;
        Some((PhotoDigest::of(&bytes), bytes))
    };
    page.match_indices(PICTURE).filter_map(picture).collect()
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
    fn a_page_gives_back_the_photos_that_it_shows() {
        let picture = b"\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR\0\0\0\x02\0\0\0\x01\x08\x02\0\0\0";
        let held = showing(PictureKind::Png, picture);
        let svg = Base64::encode_string(b"<svg onload='alert(1)'/>");
        let page = format!(
            "<img src=\"{held}\"><img src=\"data:image/svg+xml;base64,{svg}\"><img src=\"data:x\"><img src=\"data:"
        );
        let shown = shown(page.as_bytes());
        assert_eq!(shown.into_values().collect::<Vec<_>>(), [picture.to_vec()]);
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

//! A photo on a page that carries its pictures.
//!
//! A page is put together as text in which the place of each picture's bytes is only named, so that no tablet has to
//! hold all pictures of an engine as text at once: [`pieces`] takes it apart again.

use ringland_card::{Mark, PhotoDigest, photo::Taken};

use super::{Shown, overlay};
use crate::{markup::Html, words::Words};

/// What stands before the digest where the bytes of a picture go. Quotes in a text are escaped, so no text of a card
/// can look like it.
const SOURCE: &str = "src=\"photo:";

impl Words {
    /// What was done to a part before it was photographed.
    pub fn taken(&self, taken: Taken) -> &'static str {
        match taken {
            Taken::AsFound => self.photos.as_found,
            Taken::Cleaned => self.photos.cleaned,
        }
    }
}

/// A photo with what is marked on it; `title` is what it shows, and `by` who took it when.
pub fn figure(html: &mut Html, words: &Words, shown: &Shown<'_>, title: &str, by: &str) {
    let (photo, picture) = (shown.photo, &shown.photo.picture);
    let taken = words.taken(photo.taken);
    let source = ["photo:", &photo.digest.to_string()].concat();
    let [width, height] = [picture.width, picture.height].map(|pixels| pixels.to_string());
    let marks: Vec<&Mark> = shown.marks.iter().map(|(_, mark)| *mark).collect();
    html.open("figure class=\"photo\"")
        .open("span class=\"photo__frame\"")
        .with(
            "img",
            &[
                ("alt", &words.photos.alt(title, taken)),
                ("width", &width),
                ("height", &height),
                ("src", &source),
            ],
        )
        .markup(&overlay(words, picture, &marks))
        .close("span")
        .open("figcaption class=\"fine\"")
        .text(&caption(taken, by))
        .close("figcaption")
        .close("figure");
}

/// What stands below a photo: what was done to the part, who took it and when.
pub fn caption(taken: &str, by: &str) -> String {
    [taken, by].join(" · ")
}

/// A piece of a page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Piece<'p> {
    /// Text as it stands.
    Text(&'p str),
    /// Where the address of a picture goes: its bytes, as `data:`.
    Photo(PhotoDigest),
}

/// The pieces of a page, in order.
pub fn pieces(page: &str) -> Vec<Piece<'_>> {
    let mut found = Vec::new();
    let mut rest = page;
    while let Some((before, after)) = rest.split_once(SOURCE) {
        let address = after.split_once('"');
        let Some((digest, after)) =
            address.and_then(|(text, after)| Some((PhotoDigest::parse(text)?, after)))
        else {
            break;
        };
        let upto = before.len() + SOURCE.len() - "photo:".len();
        found.push(Piece::Text(&rest[..upto]));
        found.push(Piece::Photo(digest));
        // The quote that ends the address goes with what follows.
        rest = &rest[rest.len() - after.len() - 1..];
    }
    found.push(Piece::Text(rest));
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_is_taken_apart_where_a_picture_goes() {
        let digest = PhotoDigest::of(b"x");
        let page = format!("<p><img src=\"photo:{digest}\"><b>");
        assert_eq!(
            pieces(&page),
            [
                Piece::Text("<p><img src=\""),
                Piece::Photo(digest),
                Piece::Text("\"><b>"),
            ]
        );
        assert_eq!(pieces("<p>"), [Piece::Text("<p>")]);
        let twice = [&*page, &*page].concat();
        assert_eq!(pieces(&twice).len(), 5);
    }

    #[test]
    fn no_text_of_a_card_looks_like_a_picture() {
        let mut html = Html::new();
        let hostile = format!("\" src=\"photo:{}\"", PhotoDigest::of(b"x"));
        html.with("p", &[("title", &hostile)]).text(&hostile);
        assert_eq!(pieces(&html.done()).len(), 1);
    }
}

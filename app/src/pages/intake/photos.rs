//! Photos that come in with a card's file: in an archive, or in a page that shows them.

use std::{
    borrow::Cow,
    collections::{BTreeMap, BTreeSet},
};

use js_sys::Uint8Array;
use ringland_card::{
    CardId, Photo, PhotoDigest,
    file::{self, Bundle, PackedError, check_photo},
};
use ringland_report::words::Words;

use crate::{
    persist::{Db, KeepError, photos::Kept},
    slices::{READ_SHARE, Slices},
};

/// What came of the photos that a card names.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct CamePhotos {
    /// How many came.
    pub(super) came: usize,
    /// How many were left out.
    refused: usize,
    /// Why the first of these was.
    why: Option<PackedError>,
    /// How many are neither in the file nor on this tablet.
    without: usize,
    /// How many files in the archive are neither the card nor a photo.
    others: usize,
    /// Where the storage refused one, why; what came before it stays.
    stopped: Option<KeepError>,
}

impl CamePhotos {
    /// Whether there is anything to tell.
    pub(super) fn is_news(&self) -> bool {
        *self != Self::default()
    }

    /// Whether all that could be hoped for came.
    pub(super) fn is_whole(&self) -> bool {
        self.refused + self.without == 0 && self.stopped.is_none()
    }

    /// In words.
    pub(super) fn said(&self, words: &Words) -> String {
        let said = &words.photos;
        let mut lines = Vec::new();
        if self.came > 0 {
            lines.push(said.came(self.came));
        }
        if let Some(why) = &self.why {
            lines.push(said.refused(self.refused, &words.packed_refused(why)));
        }
        if self.without > 0 {
            lines.push(said.without(self.without));
        }
        if self.others > 0 {
            lines.push(said.others(self.others));
        }
        lines.extend(self.stopped.iter().map(|why| why.said(words)));
        lines.join(". ")
    }
}

/// Where photos may be found.
enum Source<'f> {
    Nowhere,
    Archive(Bundle<'f>),
    Page(BTreeMap<PhotoDigest, Vec<u8>>),
}

impl<'f> Source<'f> {
    fn of(file: Option<&'f [u8]>) -> Self {
        match file {
            Some(bytes) if file::is_bundle(bytes) => {
                Bundle::open(bytes).map_or(Self::Nowhere, Self::Archive)
            }
            Some(bytes) if file::is_page(bytes) => Self::Page(file::shown(bytes)),
            _ => Self::Nowhere,
        }
    }

    fn find(&self, photo: &Photo) -> Option<Result<Cow<'_, [u8]>, PackedError>> {
        match self {
            Self::Nowhere => None,
            Self::Archive(bundle) => bundle.photo(photo),
            Self::Page(shown) => {
                let bytes = shown.get(&photo.digest)?;
                Some(check_photo(photo, bytes).map(|()| Cow::from(bytes)))
            }
        }
    }
}

/// Keeps those photos of a card that are in its file and not here yet, one after the other. What is kept stays where it
/// is stopped; opened again, the file brings the rest.
pub(super) async fn take(
    db: &Db,
    card: CardId,
    named: &[Photo],
    file: Option<&[u8]>,
    slices: &mut Slices,
) -> CamePhotos {
    let mut came = CamePhotos::default();
    let source = Source::of(file);
    if let Source::Archive(bundle) = &source {
        came.others = bundle.left_out();
    }
    let here: BTreeSet<PhotoDigest> = db.photos_of(card).await.unwrap_or_default();
    let new = named.iter().filter(|photo| !here.contains(&photo.digest));
    for (number, photo) in new.enumerate() {
        slices.tell(READ_SHARE + (1.0 - READ_SHARE) * number as f64 / named.len() as f64);
        match source.find(photo) {
            None => came.without += 1,
            Some(Err(why)) => {
                came.refused += 1;
                came.why.get_or_insert(why);
            }
            Some(Ok(bytes)) => {
                let bytes = Uint8Array::from(&*bytes);
                let kept = db.keep_photo(Kept::Photo, card, photo.digest, &bytes).await;
                match kept.and(slices.turn().await.map_err(KeepError::from)) {
                    Ok(()) => came.came += 1,
                    Err(why) => {
                        came.stopped = Some(why);
                        break;
                    }
                }
            }
        }
    }
    came
}

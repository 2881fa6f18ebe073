//! A card's file as it is given: by itself, in a page, or with its photos in an archive.

use std::{collections::BTreeMap, fs, io, path::Path};

use ringland_card::{
    Card, Photo, PhotoDigest,
    file::{self, Bundle, BundleWriter, Opened, PackedError, check_photo},
};

use super::at;

/// What a file holds.
pub(crate) struct Given {
    /// The card.
    pub(crate) opened: Opened,
    /// The bytes of those of its photos that are in the file, and are what the card says.
    pub(crate) photos: BTreeMap<PhotoDigest, Vec<u8>>,
    /// What is wrong with photos that are in the file, too.
    pub(crate) refused: Vec<(PhotoDigest, PackedError)>,
    /// How many files in the archive are neither the card nor a photo.
    pub(crate) left_out: usize,
}

impl Given {
    /// Reads a file.
    pub(crate) fn read(path: &Path) -> Result<Self, String> {
        let bytes = fs::read(path).map_err(|why| at(path)(&why))?;
        if !file::is_bundle(&bytes) {
            let opened = file::read(&bytes).map_err(|why| at(path)(&why))?;
            let shown = if file::is_page(&bytes) {
                file::shown(&bytes)
            } else {
                BTreeMap::new()
            };
            return Ok(Self::of(opened, |photo| {
                let bytes = shown.get(&photo.digest)?;
                Some(check_photo(photo, bytes).map(|()| bytes.clone()))
            }));
        }
        let bundle = Bundle::open(&bytes).map_err(|why| at(path)(&why))?;
        let card = bundle.card().map_err(|why| at(path)(&why))?;
        let opened = file::read(&card).map_err(|why| at(path)(&why))?;
        let mut given = Self::of(opened, |photo| {
            Some(bundle.photo(photo)?.map(std::borrow::Cow::into_owned))
        });
        given.left_out = bundle.left_out();
        Ok(given)
    }

    fn of(opened: Opened, find: impl Fn(&Photo) -> Option<Result<Vec<u8>, PackedError>>) -> Self {
        let (mut photos, mut refused) = (BTreeMap::new(), Vec::new());
        for photo in opened.card.photos_named().into_values() {
            match find(photo) {
                Some(Ok(bytes)) => {
                    photos.insert(photo.digest, bytes);
                }
                Some(Err(why)) => refused.push((photo.digest, why)),
                None => {}
            }
        }
        Self {
            opened,
            photos,
            refused,
            left_out: 0,
        }
    }
}

/// A card and its photos in one archive, called as the file is.
pub(crate) fn bundle(
    path: &Path,
    card: &Card,
    photos: &BTreeMap<PhotoDigest, Vec<u8>>,
) -> io::Result<Vec<u8>> {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    let name = name.trim_end_matches(".zip").trim_end_matches(".card");
    let mut writer = BundleWriter::new(name, &file::write(card))?;
    for (digest, photo) in card.photos_named() {
        if let Some(bytes) = photos.get(&digest) {
            writer.photo(photo, bytes)?;
        }
    }
    writer.finish()
}

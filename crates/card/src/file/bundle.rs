//! A card and its photos in one file: `NAME.card.zip`.
//!
//! ```text
//! NAME.card.json          the card's file
//! photos/64 digits.jpg    each photo under the SHA-256 of its bytes
//! ```
//!
//! Names in an archive from outside are compared and never followed: nothing is written where one says. What is neither
//! the card nor a photo is left out and counted.

use std::{
    borrow::Cow,
    cell::RefCell,
    collections::BTreeMap,
    io::{self, Write},
    rc::Rc,
};

use rawzip::{CompressionMethod, ZipArchive, ZipArchiveWriter, crc32};

use super::MOST_BYTES;
use crate::photo::{MOST_PHOTO_BYTES, Photo, PhotoDigest, Picture, PictureError, PictureKind};

/// The largest bundle read, in bytes: 512 MiB.
pub const MOST_BUNDLE_BYTES: usize = 512 << 20;
/// The most files that a bundle may have in it.
pub const MOST_MEMBERS: usize = 10_000;

/// What the card's file ends with.
const CARD: &str = ".card.json";
/// Where the photos are.
const PHOTOS: &str = "photos/";

/// Why a bundle was refused; nothing is taken from it.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum BundleError {
    /// More bytes than allowed.
    #[error("the bundle has {given} bytes: allowed is {MOST_BUNDLE_BYTES} at most")]
    TooLarge {
        /// How many it has.
        given: usize,
    },
    /// No archive, or one that was cut short or contradicts itself.
    #[error("this is no whole zip archive")]
    Damaged,
    /// More files than allowed.
    #[error("the bundle has more than {MOST_MEMBERS} files, the most allowed")]
    TooMany,
    /// No card, or several.
    #[error("the bundle has {given} files that end with `{CARD}`: it must have one")]
    NotOneCard {
        /// How many it has.
        given: usize,
    },
    /// A card's file that cannot be unpacked, or is larger than a card may be.
    #[error("the card in the bundle cannot be unpacked, or is larger than {MOST_BYTES} bytes")]
    Card,
}

/// Why a photo of a bundle was left out.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PackedError {
    /// It cannot be unpacked, or is larger than a photo may be.
    #[error("it cannot be unpacked, or is larger than {MOST_PHOTO_BYTES} bytes")]
    Damaged,
    /// Its bytes are not those that its name says.
    #[error("its bytes are not those that its name says: it was altered or damaged")]
    Digest,
    /// Its bytes are no photo.
    #[error(transparent)]
    Picture(#[from] PictureError),
    /// It is not the picture that the card describes.
    #[error("it is not the picture that the card describes")]
    Differs,
}

/// Whether the bytes begin as an archive does.
pub fn is_bundle(bytes: &[u8]) -> bool {
    bytes.starts_with(b"PK\x03\x04")
}

/// A bundle that was opened.
#[derive(Clone, Debug)]
pub struct Bundle<'b> {
    card: Member<'b>,
    photos: BTreeMap<PhotoDigest, Member<'b>>,
    left_out: usize,
}

/// One file in an archive, as its directory describes it.
#[derive(Clone, Copy, Debug)]
struct Member<'b> {
    method: CompressionMethod,
    packed: &'b [u8],
    size: u64,
    crc: u32,
}

impl<'b> Member<'b> {
    /// What it holds, as long as that is no more than allowed.
    fn unpack(&self, most: u64) -> Option<Cow<'b, [u8]>> {
        let size = usize::try_from(self.size)
            .ok()
            .filter(|_| self.size <= most)?;
        let bytes = match self.method {
            CompressionMethod::STORE => Cow::Borrowed(self.packed),
            CompressionMethod::DEFLATE => {
                let unpacked =
                    miniz_oxide::inflate::decompress_to_vec_with_limit(self.packed, size);
                Cow::Owned(unpacked.ok()?)
            }
            _ => return None,
        };
        (bytes.len() == size && crc32(&bytes) == self.crc).then_some(bytes)
    }
}

impl<'b> Bundle<'b> {
    /// Looks through an archive; nothing is unpacked yet.
    ///
    /// # Errors
    ///
    /// [`BundleError`].
    pub fn open(bytes: &'b [u8]) -> Result<Self, BundleError> {
        if bytes.len() > MOST_BUNDLE_BYTES {
            let given = bytes.len();
            return Err(BundleError::TooLarge { given });
        }
        let members = members(bytes)?;
        let all = members.len();
        let (mut cards, mut photos) = (Vec::new(), BTreeMap::new());
        for (name, member) in members {
            if name.ends_with(CARD) && !name.contains(['/', '\\']) {
                cards.push(member);
            } else if let Some(digest) = digest_in(&name) {
                photos.entry(digest).or_insert(member);
            }
        }
        let [card] = cards[..] else {
            let given = cards.len();
            return Err(BundleError::NotOneCard { given });
        };
        let left_out = all - 1 - photos.len();
        Ok(Self {
            card,
            photos,
            left_out,
        })
    }

    /// The card's file.
    ///
    /// # Errors
    ///
    /// [`BundleError::Card`].
    pub fn card(&self) -> Result<Cow<'b, [u8]>, BundleError> {
        self.card.unpack(MOST_BYTES as u64).ok_or(BundleError::Card)
    }

    /// The photos in it, by their names.
    pub fn photos(&self) -> impl ExactSizeIterator<Item = PhotoDigest> {
        self.photos.keys().copied()
    }

    /// How many files are neither the card nor a photo.
    pub fn left_out(&self) -> usize {
        self.left_out
    }

    /// The bytes of a photo that the card describes; none where the bundle does not have it.
    ///
    /// # Errors
    ///
    /// [`PackedError`] where it is not that photo.
    pub fn photo(&self, photo: &Photo) -> Option<Result<Cow<'b, [u8]>, PackedError>> {
        let member = self.photos.get(&photo.digest)?;
        let bytes = member.unpack(MOST_PHOTO_BYTES).ok_or(PackedError::Damaged);
        Some(bytes.and_then(|bytes| check(photo, &bytes).map(|()| bytes)))
    }
}

/// Whether bytes are the photo that an entry describes.
///
/// # Errors
///
/// [`PackedError`] where they are not.
pub fn check(photo: &Photo, bytes: &[u8]) -> Result<(), PackedError> {
    if PhotoDigest::of(bytes) != photo.digest {
        return Err(PackedError::Digest);
    }
    if Picture::of(bytes)? != photo.picture {
        return Err(PackedError::Differs);
    }
    Ok(())
}

/// The files of an archive.
fn members(bytes: &[u8]) -> Result<Vec<(String, Member<'_>)>, BundleError> {
    let damaged = |_error: rawzip::Error| BundleError::Damaged;
    let archive = ZipArchive::from_slice(bytes).map_err(damaged)?;
    let (mut members, mut packed) = (Vec::new(), 0);
    let mut entries = archive.entries();
    while let Some(entry) = entries.next_entry().map_err(damaged)? {
        if members.len() == MOST_MEMBERS {
            return Err(BundleError::TooMany);
        }
        let name = String::from_utf8_lossy(entry.file_path().as_ref()).into_owned();
        let found = archive.get_entry(entry.wayfinder()).map_err(damaged)?;
        let (from, to) = found.compressed_data_range();
        // Files that lie within each other have more bytes between them than there are.
        packed += to.saturating_sub(from);
        if packed > bytes.len() as u64 {
            return Err(BundleError::Damaged);
        }
        let range = usize::try_from(from).ok().zip(usize::try_from(to).ok());
        let held = range.and_then(|(from, to)| bytes.get(from..to));
        let member = Member {
            method: entry.compression_method(),
            packed: held.ok_or(BundleError::Damaged)?,
            size: entry.uncompressed_size_hint(),
            crc: entry.crc32(),
        };
        if !entry.is_dir() {
            members.push((name, member));
        }
    }
    Ok(members)
}

/// The digest that a photo's name says.
fn digest_in(name: &str) -> Option<PhotoDigest> {
    let (digest, extension) = name.strip_prefix(PHOTOS)?.split_once('.')?;
    let known = PictureKind::ALL
        .iter()
        .any(|kind| kind.extension() == extension);
    known.then(|| PhotoDigest::parse(digest)).flatten()
}

/// A bundle being written: what has been written can be taken away between the photos, so that no tablet has to hold
/// all of them at once. The same card and photos, in order of their digests, make the same bytes everywhere.
#[derive(Debug)]
pub struct BundleWriter {
    archive: ZipArchiveWriter<Pieces>,
    pieces: Pieces,
}

/// Bytes that whoever writes leaves behind.
#[derive(Clone, Debug, Default)]
struct Pieces(Rc<RefCell<Vec<u8>>>);

impl Write for Pieces {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0.borrow_mut().extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

impl BundleWriter {
    /// Begins one with the card's file, which is to be called that.
    ///
    /// # Errors
    ///
    /// Where the name is longer than an archive can write.
    pub fn new(name: &str, file: &str) -> io::Result<Self> {
        let pieces = Pieces::default();
        let mut writer = Self {
            archive: ZipArchiveWriter::new(pieces.clone()),
            pieces,
        };
        writer.add(&[name, CARD].concat(), file.as_bytes())?;
        Ok(writer)
    }

    /// Adds a photo.
    ///
    /// # Errors
    ///
    /// Where the archive is larger than one can be.
    pub fn photo(&mut self, photo: &Photo, bytes: &[u8]) -> io::Result<()> {
        let (digest, extension) = (photo.digest, photo.picture.kind.extension());
        self.add(&format!("{PHOTOS}{digest}.{extension}"), bytes)
    }

    /// Takes what has been written since it was last taken.
    pub fn take(&mut self) -> Vec<u8> {
        self.pieces.0.take()
    }

    /// Ends it, and gives what has not been taken yet.
    ///
    /// # Errors
    ///
    /// Where the archive is larger than one can be.
    pub fn finish(self) -> io::Result<Vec<u8>> {
        let pieces = self.archive.finish().map_err(io::Error::other)?;
        Ok(pieces.0.take())
    }

    /// Photos are packed already, and packing a card's text would save less than one photo takes.
    fn add(&mut self, name: &str, bytes: &[u8]) -> io::Result<()> {
        let started = self.archive.new_file(name).start();
        let (mut entry, config) = started.map_err(io::Error::other)?;
        let mut writer = config.wrap(&mut entry);
        writer.write_all(bytes)?;
        let (_, descriptor) = writer.finish().map_err(io::Error::other)?;
        entry.finish(descriptor).map_err(io::Error::other)?;
        Ok(())
    }
}

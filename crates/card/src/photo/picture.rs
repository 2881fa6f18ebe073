//! What the bytes of a photo are, as far as their first ones say.

use imagesize::{ImageType, blob_size, image_type};
use serde::{Deserialize, Serialize};

use super::Point;

/// The largest photo, in bytes: 32 MiB.
pub const MOST_PHOTO_BYTES: u64 = 32 << 20;
/// The longest side of a photo, in pixels: more than any camera has, and what a browser can still draw.
pub const MOST_PHOTO_SIDE: u32 = 12_000;

/// How the bytes are to be read. Every browser shows these three; none of them can carry a script.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum PictureKind {
    /// JPEG (ISO/IEC 10918-1).
    Jpeg,
    /// PNG (ISO/IEC 15948).
    Png,
    /// WebP (RFC 9649).
    Webp,
}

impl PictureKind {
    /// Every kind.
    pub const ALL: [Self; 3] = [Self::Jpeg, Self::Png, Self::Webp];

    /// Its media type.
    pub fn media_type(self) -> &'static str {
        match self {
            Self::Jpeg => "image/jpeg",
            Self::Png => "image/png",
            Self::Webp => "image/webp",
        }
    }

    /// How a file of it ends.
    pub fn extension(self) -> &'static str {
        match self {
            Self::Jpeg => "jpg",
            Self::Png => "png",
            Self::Webp => "webp",
        }
    }
}

/// A picture's kind and size.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Picture {
    /// How its bytes are to be read.
    pub kind: PictureKind,
    /// Its width in pixels.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = MOST_PHOTO_SIDE)))]
    pub width: u32,
    /// Its height in pixels.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = MOST_PHOTO_SIDE)))]
    pub height: u32,
    /// How many bytes it has.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = MOST_PHOTO_BYTES)))]
    pub bytes: u64,
}

/// Why bytes are no photo.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PictureError {
    /// Neither of the kinds that are kept.
    #[error("this is no JPEG, PNG or WebP picture")]
    Kind,
    /// Damaged where its size stands.
    #[error("the picture is damaged: its size cannot be read")]
    Damaged,
    /// Without extent, or beyond what can be drawn.
    #[error("the picture has {width} × {height} pixels: allowed is 1 to {MOST_PHOTO_SIDE} a side")]
    Side {
        /// Its width.
        width: u64,
        /// Its height.
        height: u64,
    },
    /// No bytes, or too many.
    #[error("the picture has {given} bytes: allowed is 1 to {MOST_PHOTO_BYTES}")]
    Bytes {
        /// How many it has.
        given: u64,
    },
}

/// A point that does not lie on its picture, or is none.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[error("a point is at {x}, {y}: allowed is 0 to {width}, 0 to {height}")]
pub struct Outside {
    /// From the left.
    pub x: f64,
    /// From above.
    pub y: f64,
    /// The picture's width.
    pub width: u32,
    /// The picture's height.
    pub height: u32,
}

impl Picture {
    /// Looks at the first bytes of a picture: nothing is decoded.
    ///
    /// # Errors
    ///
    /// [`PictureError`]; a picture whose first bytes are sound may still be damaged further on.
    pub fn of(bytes: &[u8]) -> Result<Self, PictureError> {
        let kind = match image_type(bytes) {
            Ok(ImageType::Jpeg) => PictureKind::Jpeg,
            Ok(ImageType::Png) => PictureKind::Png,
            Ok(ImageType::Webp) => PictureKind::Webp,
            _ => return Err(PictureError::Kind),
        };
        let size = blob_size(bytes).map_err(|_error| PictureError::Damaged)?;
        let (width, height) = (size.width as u64, size.height as u64);
        let side = |pixels: u64| {
            u32::try_from(pixels).map_err(|_large| PictureError::Side { width, height })
        };
        let picture = Self {
            kind,
            width: side(width)?,
            height: side(height)?,
            bytes: bytes.len() as u64,
        };
        picture.check()?;
        Ok(picture)
    }

    /// Refuses a picture that cannot be one, or that nobody could show.
    ///
    /// # Errors
    ///
    /// [`PictureError`] with what is allowed.
    pub fn check(&self) -> Result<(), PictureError> {
        let sides = 1..=MOST_PHOTO_SIDE;
        if !sides.contains(&self.width) || !sides.contains(&self.height) {
            return Err(PictureError::Side {
                width: self.width.into(),
                height: self.height.into(),
            });
        }
        if !(1..=MOST_PHOTO_BYTES).contains(&self.bytes) {
            return Err(PictureError::Bytes { given: self.bytes });
        }
        Ok(())
    }

    /// Whether all points lie on it, its edges included.
    ///
    /// # Errors
    ///
    /// [`Outside`] with the first that does not.
    pub fn check_points<'p>(
        &self,
        points: impl IntoIterator<Item = &'p Point>,
    ) -> Result<(), Outside> {
        let (width, height) = (self.width, self.height);
        let on = |point: &Point| {
            (0.0..=f64::from(width)).contains(&point.x)
                && (0.0..=f64::from(height)).contains(&point.y)
        };
        match points.into_iter().find(|point| !on(point)) {
            Some(Point { x, y }) => Err(Outside {
                x: *x,
                y: *y,
                width,
                height,
            }),
            None => Ok(()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A PNG's signature and header (ISO/IEC 15948 5.2 and 11.2.2), as far as its size stands in it.
    fn png(width: u32, height: u32) -> Vec<u8> {
        let mut bytes = b"\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR".to_vec();
        bytes.extend(width.to_be_bytes());
        bytes.extend(height.to_be_bytes());
        bytes.extend([8, 2, 0, 0, 0]);
        bytes
    }

    /// A JPEG's start of image and start of frame (ISO/IEC 10918-1 B.2), the height before the width.
    fn jpeg(width: u16, height: u16) -> Vec<u8> {
        let mut bytes = b"\xff\xd8\xff\xc0\0\x11\x08".to_vec();
        bytes.extend(height.to_be_bytes());
        bytes.extend(width.to_be_bytes());
        bytes.extend([3, 1, 0x22, 0, 2, 0x11, 1, 3, 0x11, 1]);
        bytes
    }

    #[test]
    fn kind_and_size_are_read_from_the_first_bytes() {
        let png = Picture::of(&png(2048, 1536)).unwrap();
        assert_eq!(
            (png.kind, png.width, png.height),
            (PictureKind::Png, 2048, 1536)
        );
        let jpeg = Picture::of(&jpeg(640, 480)).unwrap();
        assert_eq!(
            (jpeg.kind, jpeg.width, jpeg.height),
            (PictureKind::Jpeg, 640, 480)
        );
    }

    #[test]
    fn what_is_no_picture_is_refused() {
        let svg = br#"<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>"#;
        for bytes in [
            &b""[..],
            b"GIF89a\x01\0\x01\0",
            svg,
            b"<!doctype html>",
            b"{}",
        ] {
            assert_eq!(Picture::of(bytes), Err(PictureError::Kind));
        }
        // It ends within the segment before the one with its size.
        let cut = b"\xff\xd8\xff\xe0\0\x10JFIF\0\x01";
        assert_eq!(Picture::of(cut), Err(PictureError::Damaged));
    }

    #[test]
    fn what_nobody_could_show_is_refused() {
        for (width, height) in [
            (0, 10),
            (10, 0),
            (MOST_PHOTO_SIDE + 1, 10),
            (u32::MAX, u32::MAX),
        ] {
            let refused = PictureError::Side {
                width: width.into(),
                height: height.into(),
            };
            assert_eq!(Picture::of(&png(width, height)), Err(refused));
        }
    }
}

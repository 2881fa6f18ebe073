//! A picture from the tablet's camera or from a file, made into a photo as it is kept: upright, no larger than asked,
//! and drawn anew, so that nothing of where and with what it was taken is left in it.

use js_sys::{Promise, Reflect, Uint8Array, Uint8ClampedArray};
use leptos::prelude::{document, window};
use ringland_card::{
    Photo, PhotoDigest, Taken,
    photo::{MOST_PHOTO_BYTES, MOST_PHOTO_SIDE, Picture, PictureError},
};
use wasm_bindgen::{JsCast, JsValue, closure::Closure};
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    Blob, CanvasRenderingContext2d, File, HtmlCanvasElement, ImageBitmap, ImageBitmapOptions,
    ResizeQuality,
};

use super::transfer;

/// The longer side of a photo where nobody asks for more, in pixels.
pub const LONGER_SIDE: u32 = 2_048;
/// The longer side of a small picture, in pixels.
const THUMB_SIDE: u32 = 360;
/// The longer side that areas are read at, in pixels: a photo kept in full size may have more than a tablet can hold.
const MOST_READ_SIDE: u32 = 4_096;
/// How faithful a photo is drawn, of 1: pits of a pixel or two stay what they are.
const FAITHFUL: f64 = 0.88;
/// The same of a small picture.
const THUMB_FAITHFUL: f64 = 0.7;

/// Why a picture did not become a photo.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ShotError {
    /// It is none that is kept.
    Picture(PictureError),
    /// The browser cannot read it.
    Unread,
}

impl From<JsValue> for ShotError {
    fn from(_said: JsValue) -> Self {
        Self::Unread
    }
}

impl From<PictureError> for ShotError {
    fn from(why: PictureError) -> Self {
        Self::Picture(why)
    }
}

/// A photo ready to be kept.
pub struct Shot {
    /// What its entry says of it.
    pub photo: Photo,
    /// Its bytes.
    pub bytes: Uint8Array,
    /// A small picture of it.
    pub thumb: Uint8Array,
}

/// Makes a photo of a picture.
///
/// # Errors
///
/// [`ShotError`]; nothing was kept of it.
pub async fn shoot(file: &File, full_size: bool, taken: Taken) -> Result<Shot, ShotError> {
    check(file).await?;
    let bitmap = decode(file).await?;
    let longer = if full_size {
        MOST_PHOTO_SIDE
    } else {
        LONGER_SIDE
    };
    let drawn = drawn(&bitmap, longer, FAITHFUL).await;
    let thumb = self::drawn(&bitmap, THUMB_SIDE, THUMB_FAITHFUL).await;
    bitmap.close();
    let (bytes, thumb) = (drawn?, thumb?);
    let copy = bytes.to_vec();
    Ok(Shot {
        photo: Photo {
            digest: PhotoDigest::of(&copy),
            picture: Picture::of(&copy)?,
            taken,
        },
        bytes,
        thumb,
    })
}

/// A small picture of a photo that came in a file.
///
/// # Errors
///
/// [`ShotError::Unread`] where its bytes are damaged.
pub async fn thumb_of(bytes: &Uint8Array, picture: &Picture) -> Result<Uint8Array, ShotError> {
    let blob = Blob::new_with_u8_array_sequence(&js_sys::Array::of1(bytes))?;
    // Made small as it is decoded, which the browser does beside the page.
    let (width, height) = within(picture.width, picture.height, THUMB_SIDE);
    let options = ImageBitmapOptions::new();
    options.set_resize_width(width);
    options.set_resize_height(height);
    options.set_resize_quality(ResizeQuality::Medium);
    let decoded =
        window().create_image_bitmap_with_blob_and_image_bitmap_options(&blob, &options)?;
    let bitmap: ImageBitmap = JsFuture::from(decoded).await?.dyn_into()?;
    let thumb = drawn(&bitmap, THUMB_SIDE, THUMB_FAITHFUL).await;
    bitmap.close();
    thumb
}

/// The pixels of a photo.
pub struct Plane {
    /// How many a row has.
    pub width: u32,
    /// How many of them there are to a pixel of the photo, along a row.
    pub scale: f64,
    /// The bytes, row by row: red, green, blue and how much each covers.
    pub rgba: Uint8Array,
}

/// The pixels of a photo, fewer where it is larger than they are read at.
///
/// # Errors
///
/// [`ShotError::Unread`] where its bytes are damaged.
pub async fn pixels_of(bytes: &Uint8Array) -> Result<Plane, ShotError> {
    let blob = Blob::new_with_u8_array_sequence(&js_sys::Array::of1(bytes))?;
    let bitmap = decode(&blob).await?;
    let (width, height) = within(bitmap.width(), bitmap.height(), MOST_READ_SIDE);
    let scale = f64::from(width) / f64::from(bitmap.width());
    let canvas = on_canvas(&bitmap, (width, height));
    bitmap.close();
    let (_, context) = canvas?;
    let drawn = context.get_image_data(0.0, 0.0, f64::from(width), f64::from(height))?;
    // As it lies in the browser: three million pixels need not come through here.
    let data: Uint8ClampedArray = Reflect::get(&drawn, &"data".into())?.unchecked_into();
    Ok(Plane {
        width,
        scale,
        rgba: Uint8Array::new(&data.buffer()),
    })
}

/// Refuses what would take the browser long, or could hold more than a picture, before it is decoded. Of kinds that are
/// not kept as they are, such as those of some cameras, the browser says whether it can read them.
async fn check(file: &File) -> Result<(), ShotError> {
    let given = transfer::size(file);
    if !(1..=MOST_PHOTO_BYTES).contains(&given) {
        return Err(PictureError::Bytes { given }.into());
    }
    let bytes = transfer::bytes(file).await?;
    match Picture::of(&bytes) {
        // A drawing may be text, and text may say anything.
        Err(PictureError::Kind) if bytes.trim_ascii_start().starts_with(b"<") => {
            Err(PictureError::Kind.into())
        }
        Ok(_) | Err(PictureError::Kind) => Ok(()),
        Err(why) => Err(why.into()),
    }
}

/// The pixels of a picture, upright.
async fn decode(blob: &Blob) -> Result<ImageBitmap, ShotError> {
    let decoded = window().create_image_bitmap_with_blob(blob)?;
    Ok(JsFuture::from(decoded).await?.dyn_into()?)
}

/// A picture with its longer side no longer than that, as the bytes of a JPEG.
async fn drawn(bitmap: &ImageBitmap, longer: u32, faithful: f64) -> Result<Uint8Array, ShotError> {
    let size = within(bitmap.width(), bitmap.height(), longer);
    let (canvas, _) = on_canvas(bitmap, size)?;
    let mut refused = Ok(());
    let encoded = Promise::new(&mut |done, _| {
        let taken = Closure::once_into_js(move |blob: JsValue| {
            let _called = done.call1(&JsValue::NULL, &blob);
        });
        refused = canvas.to_blob_with_type_and_encoder_options(
            taken.unchecked_ref(),
            "image/jpeg",
            &faithful.into(),
        );
    });
    refused?;
    // None where the picture is larger than the browser can draw.
    let blob: Blob = JsFuture::from(encoded).await?.dyn_into()?;
    Ok(Uint8Array::new(&JsFuture::from(blob.array_buffer()).await?))
}

/// A picture drawn in that size.
fn on_canvas(
    bitmap: &ImageBitmap,
    (width, height): (u32, u32),
) -> Result<(HtmlCanvasElement, CanvasRenderingContext2d), ShotError> {
    let canvas: HtmlCanvasElement = document().create_element("canvas")?.unchecked_into();
    canvas.set_width(width);
    canvas.set_height(height);
    let context = canvas.get_context("2d")?.ok_or(ShotError::Unread)?;
    let context: CanvasRenderingContext2d = context.unchecked_into();
    let (wide, high) = (f64::from(width), f64::from(height));
    context.draw_image_with_image_bitmap_and_dw_and_dh(bitmap, 0.0, 0.0, wide, high)?;
    Ok((canvas, context))
}

/// A size of the same shape, no longer on either side than that.
fn within(width: u32, height: u32, longer: u32) -> (u32, u32) {
    let side = width.max(height).max(1);
    if side <= longer {
        return (width, height);
    }
    let shrunk = |pixels: u32| {
        let rounded =
            (u64::from(pixels) * u64::from(longer) + u64::from(side) / 2) / u64::from(side);
        u32::try_from(rounded).unwrap_or(longer).max(1)
    };
    (shrunk(width), shrunk(height))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_longer_side_is_made_no_longer_than_asked() {
        assert_eq!(within(4000, 3000, 2048), (2048, 1536));
        assert_eq!(within(3000, 4000, 2048), (1536, 2048));
        assert_eq!(within(2048, 1, 2048), (2048, 1));
        assert_eq!(within(9000, 1, 2048), (2048, 1));
        assert_eq!(within(640, 480, 2048), (640, 480));
    }
}

//! How quick photos are in Chromium, on this machine as it is: figures for people to read, run by `cargo xtask bench` and by
//! no other command. Nothing here fails for being slow.

#![allow(clippy::print_stdout, reason = "figures are what it is for")]

use std::io::Cursor;

use image::{DynamicImage, ImageFormat, Rgb, RgbImage};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use ringland_card::{
    About, Body, Card, DeviceId, Entry, EntryId, Photo, PhotoDigest, Taken, Timestamp,
    file::{self, BundleWriter},
    photo::Picture,
};
use suite::demo;
use thirtyfour::prelude::*;

use crate::{
    browser::{Browser, SCREENS},
    photos::{at_the_bench, choose_all, pick, written},
};

/// Photos in the bundle, of 0.4 MB each.
const PHOTOS: u8 = 100;
/// Pictures picked one after the other.
const TIMES: usize = 5;

/// The time from a pick, or from a press, until a script finds something, in milliseconds.
const WATCH: &str = "window.watch = found => { window.took = null;\n\
    const from = window.began; const look = () => found() ? (window.took = performance.now() - from) : setTimeout(look, 4);\n\
    look() };\n\
    addEventListener('change', () => { window.began = performance.now() }, true);\n\
    addEventListener('click', () => { window.began = performance.now() }, true);";

/// Noise, as a camera gives a rough surface: about 0.4 MB in 2,048 by 1,536 pixels.
fn rough(width: u32, height: u32) -> Vec<u8> {
    let mut draw = ChaCha8Rng::seed_from_u64(3);
    let scene = RgbImage::from_fn(width, height, |x, y| {
        let shade = u8::try_from((x / 9 + y / 7) % 180).unwrap_or_default();
        let noise = draw.random_range(0..24_u8);
        Rgb([shade + noise, shade, shade])
    });
    let mut jpeg = Cursor::new(Vec::new());
    DynamicImage::from(scene)
        .write_to(&mut jpeg, ImageFormat::Jpeg)
        .expect("a picture");
    jpeg.into_inner()
}

/// The engine with photos of its positions, each a picture of its own, and the archive that carries them.
fn with_photos(card: &Card) -> Vec<u8> {
    let (plan, picture) = (card.plan(), rough(2_048, 1_536));
    let mut there = card.clone();
    let mut photos = Vec::new();
    for n in 0..PHOTOS {
        // What stands after its end makes another photo of the same picture.
        let bytes = [&*picture, &[n]].concat();
        let photo = Photo {
            digest: PhotoDigest::of(&bytes),
            picture: Picture::of(&bytes).expect("a picture"),
            taken: Taken::AsFound,
        };
        let leaves = card.index().leaves();
        let position = leaves[usize::from(n) * 5 % leaves.len()]
            .position(plan)
            .id
            .clone();
        let about = Some(About {
            position,
            characteristic: None,
        });
        let (id, device) = (
            EntryId::v7(1_900_000_000_000 + u64::from(n), [n; 10]),
            DeviceId::v7(1, [79; 10]),
        );
        let body = Body::Photo {
            about,
            photo: Box::new(photo.clone()),
        };
        let entry = Entry::new(
            id,
            device,
            there.next_lamport(),
            Timestamp::UNIX_EPOCH,
            "P. Lens",
            body,
        );
        there.append(entry).expect("an entry that may be");
        photos.push((photo, bytes));
    }
    let mut writer = BundleWriter::new("six", &file::write(&there)).expect("an archive");
    for (photo, bytes) in &photos {
        writer.photo(photo, bytes).expect("a photo");
    }
    let mut whole = writer.take();
    whole.extend(writer.finish().expect("an archive"));
    whole
}

async fn took(browser: &Browser, what: &str, found: &str) -> WebDriverResult<f64> {
    browser.script(&format!("watch(() => {found})")).await?;
    browser.until(what, "return window.took !== null").await?;
    Ok(browser
        .script("return window.took")
        .await?
        .as_f64()
        .unwrap_or(f64::NAN))
}

#[tokio::test]
#[ignore = "figures for people, by `cargo xtask bench`"]
async fn figures_of_photos() -> WebDriverResult<()> {
    let cards = demo::cards().expect("the demo engines");
    let (_, card) = cards.first().expect("an engine");
    let (_server, browser) = at_the_bench("photo-figures", SCREENS[0], card).await?;
    browser.script(WATCH).await?;
    println!("photos in Chromium, the processor as it is");

    browser
        .script(&format!("location.hash = '#/bench/{}/0'", card.id()))
        .await?;
    let camera = written("rough.jpg", &rough(4_000, 3_000));
    let mut picked = Vec::new();
    for n in 1..=TIMES {
        pick(&browser, "#pad-photo", &[&camera]).await?;
        let kept =
            format!("document.querySelector('#pad-photos')?.textContent.includes('{n} photo')");
        picked.push(took(&browser, "a photo", &kept).await?);
    }
    picked.sort_by(f64::total_cmp);
    println!(
        "{:>8.0} ms  a picture of 12 megapixels from pick to kept, median of {TIMES}",
        picked[TIMES / 2]
    );

    let bundle = with_photos(card);
    println!(
        "{:>8.1} MB  an archive with {PHOTOS} photos",
        bundle.len() as f64 / 1e6
    );
    let bundle = written("hundred.card.zip", &bundle);
    browser.script("location.hash = '#/shelf'").await?;
    pick(&browser, "input[type=file]", &[&bundle]).await?;
    let asked = took(&browser, "the question", "document.querySelector('#merge')").await?;
    browser.press("#merge").await?;
    let came = "document.querySelector('.news')?.textContent.includes('100 photos came')";
    let merged = took(&browser, "the photos", came).await?;
    println!("{asked:>8.0} ms  until it is said what the archive would bring");
    println!("{merged:>8.0} ms  until it is merged and every photo is on the disk");

    browser
        .script(&format!("location.hash = '#/photos/{}'", card.id()))
        .await?;
    browser.script("window.began = performance.now()").await?;
    let hung = "document.querySelectorAll('.photo--small img').length > 100";
    let first = took(&browser, "the wall", hung).await?;
    println!("{first:>8.0} ms  until the wall shows all, their small pictures being made");

    browser
        .script(&format!("location.hash = '#/card/{}'", card.id()))
        .await?;
    choose_all(&browser).await?;
    browser.press("#report").await?;
    let written = took(
        &browser,
        "the report",
        "document.querySelector('.head__made')",
    )
    .await?;
    println!("{written:>8.0} ms  until the report with all of them is written");
    areas(&browser, card).await?;
    browser.close().await
}

/// How long the worker takes over the shades of a photo of 3.1 megapixels, whole.
async fn areas(browser: &Browser, card: &Card) -> WebDriverResult<()> {
    browser
        .script(&format!("location.hash = '#/bench/{}/0'", card.id()))
        .await?;
    browser.press("#pad-areas").await?;
    browser.find("#photo img").await?;
    browser.press("#areas-whole").await?;
    let first = took(
        browser,
        "the shades",
        "document.querySelector('.parted__share')",
    )
    .await?;
    println!(
        "{first:>8.0} ms  from the press to the shades of a photo of 3.1 megapixels, the first time"
    );
    for shade in ["Yellowness", "Colour against grey", "Lightness"] {
        let before = "window.last = document.querySelector('.parted__shades').innerHTML";
        browser.script(before).await?;
        browser.press_text(shade).await?;
        let anew = "document.querySelector('.parted__shades')?.innerHTML !== window.last && !document.querySelector('.viewer__side [role=status]')?.textContent.includes('Counting')";
        let again = took(browser, "other shades", anew).await?;
        println!(
            "{again:>8.0} ms  from the press to those by {}",
            shade.to_lowercase()
        );
    }
    let alone = browser
        .driver
        .execute_async(WORKER_ALONE, Vec::new())
        .await?;
    for (kind, ms) in [
        "lightness",
        "yellowness",
        "colour against grey",
        "lightness, straightened",
    ]
    .into_iter()
    .zip(alone.json().as_array().into_iter().flatten())
    {
        println!(
            "{:>8.0} ms  the worker alone, for {kind}",
            ms.as_f64().unwrap_or(f64::NAN)
        );
    }
    Ok(())
}

/// A worker of its own with pixels of every shade, and how long each count takes it.
const WORKER_ALONE: &str = "const done = arguments[0];\n\
    const worker = new Worker(document.querySelector('#worker').dataset.at);\n\
    const ask = message => new Promise(told => { worker.onmessage = ({ data }) => told(data); worker.postMessage(message); });\n\
    const rgba = new Uint8Array(2048 * 1536 * 4); for (let n = 0; n < rgba.length; n++) rgba[n] = (n * 2654435761) >>> 13;\n\
    const corners = new Float64Array([0, 0, 2048, 0, 2048, 1536, 0, 1536]), none = new Float64Array();\n\
    const slanted = new Float64Array([10, 10, 2000, 200, 1900, 1500, 100, 1400]);\n\
    (async () => {\n\
      await ask({ act: 'picture', width: 2048, rgba });\n\
      const took = [];\n\
      for (const [shade, rectangle] of [[0, none], [1, none], [2, none], [0, slanted]]) {\n\
        const began = performance.now();\n\
        await ask({ act: 'count', corners, rectangle, leftOut: [], shade });\n\
        took.push(performance.now() - began);\n\
      }\n\
      done(took);\n\
    })()";

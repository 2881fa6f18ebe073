//! Photos: taken at the bench, hung on the wall, marked, measured on, and carried to another tablet.

use std::{
    collections::BTreeSet,
    fs,
    io::Cursor,
    path::{Path, PathBuf},
};

use image::{DynamicImage, ImageFormat, Rgb, RgbImage};
use ringland_card::{
    Body, Card, Mark, PhotoDigest,
    file::{self, Bundle, read, showing, shown},
    photo::{Picture, PictureKind},
};
use ringland_report::{
    handover::{ReadAs, page_of},
    photo::{Piece, pieces},
};
use serde_json::json;
use suite::demo;
use thirtyfour::prelude::*;

use crate::{
    browser::{Browser, SCREENS, Screen},
    plans::says,
    safe::in_database,
    serve,
};

/// How a camera writes where a picture was taken: what must not be kept.
const PLACE: &[u8] = b"GPS secret place";

/// A part with bright and dark bands as a camera sees it, laid on its side: 4,000 by 3,000 pixels with the upper edge of
/// the scene on the right, which tag 0x0112 of its Exif data (JEITA CP-3451) says.
pub(crate) fn from_camera() -> Vec<u8> {
    let scene = RgbImage::from_fn(4_000, 3_000, |x, y| {
        let band = (y / 250) % 2 == 0;
        let shade = 90 + (x / 40 % 60) + if band { 70 } else { 0 };
        let shade = u8::try_from(shade).expect("a shade");
        Rgb([shade, shade, shade.saturating_sub(10)])
    });
    let mut jpeg = Cursor::new(Vec::new());
    DynamicImage::from(scene)
        .write_to(&mut jpeg, ImageFormat::Jpeg)
        .expect("a picture");
    let jpeg = jpeg.into_inner();
    let mut exif =
        b"Exif\0\0MM\0\x2a\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0\x06\0\0\0\0\0\0".to_vec();
    exif.extend(PLACE);
    let mut bytes = jpeg[..2].to_vec();
    bytes.extend([0xff, 0xe1]);
    bytes.extend(
        u16::try_from(exif.len() + 2)
            .expect("a short one")
            .to_be_bytes(),
    );
    bytes.extend(exif);
    bytes.extend(&jpeg[2..]);
    bytes
}

/// A file of that name with these bytes.
pub(crate) fn written(name: &str, bytes: &[u8]) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("ringland-photos-{}", std::process::id()));
    fs::create_dir_all(&folder).expect("a folder");
    let path = folder.join(name);
    fs::write(&path, bytes).expect("a file");
    path
}

pub(crate) async fn pick(browser: &Browser, field: &str, files: &[&Path]) -> WebDriverResult<()> {
    let names: Vec<String> = files
        .iter()
        .map(|path| path.display().to_string())
        .collect();
    browser.find(field).await?.send_keys(names.join("\n")).await
}

/// How many photos are on the disk.
pub(crate) async fn on_disk(browser: &Browser) -> WebDriverResult<u64> {
    let count = "const ask = db.transaction('photos').objectStore('photos').count();\n\
        ask.onsuccess = () => { db.close(); done(ask.result); }";
    Ok(in_database(browser, count)
        .await?
        .as_u64()
        .expect("a count"))
}

/// The card that a file on the disk of the browser would be saved as.
async fn saved_card(browser: &Browser) -> WebDriverResult<(PathBuf, Card)> {
    browser.press("#save-with-photos").await?;
    let saved = browser.saved(".card.zip").await;
    let bytes = fs::read(&saved).expect("the file that was saved");
    let bundle = Bundle::open(&bytes).expect("an archive");
    let opened = read(&bundle.card().expect("a card")).expect("a card");
    assert!(opened.digest_matches);
    Ok((saved, opened.card))
}

fn photo_of(card: &Card) -> ringland_card::Photo {
    let mut photos = card.entries().filter_map(|entry| match &entry.body {
        Body::Photo { photo, .. } => Some((**photo).clone()),
        _ => None,
    });
    photos.next_back().expect("a photo")
}

pub(crate) async fn at_the_bench(
    name: &str,
    screen: Screen,
    card: &Card,
) -> WebDriverResult<(xtask::server::Server, Browser)> {
    let server = serve();
    let browser = Browser::open(name, screen).await?;
    browser.driver.goto(server.url()).await?;
    sign_in(&browser, card).await?;
    Ok((server, browser))
}

/// Says who rates, once the engine is on the Shelf.
pub(crate) async fn sign_in(browser: &Browser, card: &Card) -> WebDriverResult<()> {
    let here = format!("a[href='#/card/{}']", card.id());
    browser.find(&here).await?;
    browser
        .script(
            "const set = JSON.parse(localStorage.getItem('ringland.settings') ?? '{}');\n\
             localStorage.setItem('ringland.settings', JSON.stringify({ ...set, raters: ['P. Lens'], rater: 'P. Lens' }));\n\
             window.leaving = true; location.reload()",
        )
        .await?;
    // Until the old page has gone, what is on it is no sign of the new one.
    let there = format!("return !window.leaving && document.querySelector(\"{here}\") !== null");
    browser.until("the Shelf anew", &there).await
}

/// Taps on a place of the photo, in shares of its width and height.
pub(crate) async fn tap(browser: &Browser, at: (f64, f64)) -> WebDriverResult<()> {
    drag(browser, at, at).await
}

#[tokio::test]
async fn a_photo_is_taken_marked_measured_and_carried() -> WebDriverResult<()> {
    let cards = demo::cards().expect("the demo engines");
    let (_, card) = cards.first().expect("an engine");
    let (_server, browser) = at_the_bench("photos", SCREENS[0], card).await?;
    browser
        .script(&format!("location.hash = '#/bench/{}/0'", card.id()))
        .await?;
    let camera = written("camera.jpg", &from_camera());
    pick(&browser, "#pad-photo", &[&camera]).await?;
    says(&browser, "#photo-outcome", "1 photo kept").await?;
    says(&browser, "#pad-photos", "1 photo").await?;
    assert_eq!(on_disk(&browser).await?, 1);

    browser.press("#pad-photos").await?;
    browser.find(".pad .photo--small img").await?;
    let drawing = written(
        "drawing.svg",
        b"<svg xmlns='http://www.w3.org/2000/svg' onload='window.struck = 1'/>",
    );
    let cut = written("cut.jpg", &from_camera()[..3_000]);
    pick(&browser, "#photo-files", &[&drawing, &cut, &camera]).await?;
    says(
        &browser,
        "#photo-outcome",
        "drawing.svg was not kept. Only JPEG, PNG and WebP",
    )
    .await?;
    says(&browser, "#photo-outcome", "cut.jpg was not kept").await?;
    // The same picture again is a photo again, of the same bytes.
    says(&browser, "#photo-outcome", "1 photo kept").await?;
    assert_eq!(on_disk(&browser).await?, 1);
    browser.picture("photos-pad").await?;
    let found = browser.violations().await?;
    assert!(found.is_empty(), "{}", found.join("\n"));

    browser.press(".pad .photo--small").await?;
    browser.find("#photo img").await?;
    measure(&browser).await?;
    browser.picture("photo").await?;
    let found = browser.violations().await?;
    assert!(found.is_empty(), "{}", found.join("\n"));

    browser
        .script(&format!("location.hash = '#/card/{}'", card.id()))
        .await?;
    let (saved, kept) = saved_card(&browser).await?;
    is_upright_and_says_nothing_of_its_place(&saved, &kept);
    let marks = kept.entries().filter(|entry| matches!(&entry.body, Body::Mark { mark, .. } if matches!(mark, Mark::Scale { .. } | Mark::Length { .. })));
    assert_eq!(marks.count(), 2);
    reports(&browser, &kept).await?;
    browser.close().await?;
    carried(card, &saved, &kept).await
}

/// Draws a known length and one to be measured, twice as long.
async fn measure(browser: &Browser) -> WebDriverResult<()> {
    browser.press("#mark-scale").await?;
    drag(browser, (0.2, 0.3), (0.4, 0.3)).await?;
    browser.press("#mark-done").await?;
    says(browser, ".viewer__side", "Type a length above 0").await?;
    browser.find("#mark-known").await?.send_keys("50").await?;
    browser.press("#mark-done").await?;
    says(browser, "#photo-marks", "Known length: 50").await?;
    browser.press("#mark-length").await?;
    drag(browser, (0.2, 0.6), (0.6, 0.6)).await?;
    browser.press("#mark-done").await?;
    says(browser, "#photo-marks", "Measure").await?;
    let figure = browser
        .script("return [...document.querySelectorAll('.marks__text')].at(-1).textContent")
        .await?;
    let figure = figure.as_str().expect("a figure").replace('\u{a0}', " ");
    let (size, rest) = figure.split_once(" ± ").expect("an interval");
    let size: f64 = size.parse().expect("a number");
    // The hand is set to a pixel of the screen, which is some pixels of the photo.
    assert!(
        (size - 100.0).abs() < 1.0 && rest.ends_with(" mm"),
        "{figure}"
    );
    Ok(())
}

/// Draws from one place of the photo to another, in shares of its width and height.
async fn drag(browser: &Browser, from: (f64, f64), to: (f64, f64)) -> WebDriverResult<()> {
    let script = format!(
        "const pad = document.querySelector('#photo-touch');\n\
         pad.scrollIntoView({{ block: 'center' }});\n\
         const box = pad.getBoundingClientRect();\n\
         const at = (kind, [x, y]) => pad.dispatchEvent(new PointerEvent(kind, {{ bubbles: true, cancelable: true, pointerId: 1,\n\
           clientX: box.left + x * box.width, clientY: box.top + y * box.height }}));\n\
         at('pointerdown', [{0}, {1}]); at('pointermove', [{2}, {3}]); at('pointerup', [{2}, {3}]);",
        from.0, from.1, to.0, to.1
    );
    browser.script(&script).await?;
    Ok(())
}

fn is_upright_and_says_nothing_of_its_place(saved: &Path, card: &Card) {
    let photo = photo_of(card);
    assert_eq!((photo.picture.width, photo.picture.height), (1_536, 2_048));
    let bytes = fs::read(saved).expect("the file that was saved");
    let bundle = Bundle::open(&bytes).expect("an archive");
    assert_eq!((bundle.photos().len(), bundle.left_out()), (1, 0));
    let picture = bundle
        .photo(&photo)
        .expect("the photo")
        .expect("a sound one");
    for secret in [PLACE, b"Exif"] {
        assert!(!picture.windows(secret.len()).any(|window| window == secret));
    }
    let decoded = image::load_from_memory(&picture)
        .expect("a picture")
        .into_rgb8();
    // Upright, the bands that lay across the camera's picture stand beside each other: along a row they change, down a
    // column they do not.
    let shade = |x: u32, y: u32| i32::from(decoded.get_pixel(x, y)[0]);
    let (along, down) = (0..8).fold((0, 0), |(along, down), step| {
        let at = 100 + step * 128;
        (
            along + (shade(at, 1_000) - shade(at + 128, 1_000)).abs(),
            down + (shade(700, at) - shade(700, at + 128)).abs(),
        )
    });
    assert!(along > 4 * down.max(20), "{along} along, {down} down");
}

/// Chooses all photos for the report. The choice comes once the storage has said which are here, and may still move under
/// the hand.
pub(crate) async fn choose_all(browser: &Browser) -> WebDriverResult<()> {
    let chosen =
        "return [...document.querySelectorAll('[name=report-photos]')].at(-1)?.checked ?? false";
    for _ in 0..5 {
        browser.press_text("All that are here").await?;
        if browser.script(chosen).await? == json!(true) {
            break;
        }
    }
    browser.until("all photos to be chosen", chosen).await
}

/// The report with all photos is what the command would write, and shows them.
async fn reports(browser: &Browser, card: &Card) -> WebDriverResult<()> {
    choose_all(browser).await?;
    browser.press("#report").await?;
    let saved = browser.saved(".card.html").await;
    let page = fs::read_to_string(&saved).expect("the page that was saved");
    let photos = shown(page.as_bytes());
    let photo = photo_of(card);
    assert_eq!(
        photos.keys().copied().collect::<Vec<PhotoDigest>>(),
        [photo.digest]
    );
    let opened = read(page.as_bytes()).expect("the card in the page");
    assert_eq!(opened.card, *card);
    let offset = browser
        .script("return -new Date().getTimezoneOffset()")
        .await?;
    let read_as = ReadAs {
        offset_minutes: i32::try_from(offset.as_i64().expect("minutes")).expect("minutes"),
        ..ReadAs::default()
    };
    let here: BTreeSet<PhotoDigest> = photos.keys().copied().collect();
    let written = page_of(&opened, read_as, &here);
    let whole: String = pieces(&written)
        .into_iter()
        .map(|piece| match piece {
            Piece::Text(text) => text.to_owned(),
            Piece::Photo(digest) => showing(PictureKind::Jpeg, &photos[&digest]),
        })
        .collect();
    assert!(page == whole, "the tablet's page is not the command's");
    browser
        .driver
        .goto(&format!("file://{}", saved.display()))
        .await?;
    let drawn = "const all = [...document.images]; return all.length > 0 && all.every(image => image.complete && image.naturalWidth > 0)";
    browser.until("the photos in the page", drawn).await?;
    browser
        .script("document.querySelector('figure').scrollIntoView({ block: 'center' })")
        .await?;
    browser.picture("photos-report").await?;
    let found = browser.violations().await?;
    assert!(found.is_empty(), "{}", found.join("\n"));
    assert!(!page.contains("src=\"photo:"));
    Ok(())
}

/// Another tablet takes it in, photos and all.
async fn carried(card: &Card, saved: &Path, kept: &Card) -> WebDriverResult<()> {
    let (_server, other) = at_the_bench("photos-other", SCREENS[1], card).await?;
    pick(&other, "input[type=file]", &[saved]).await?;
    says(&other, ".merging__lines", "photo").await?;
    other.press("#merge").await?;
    says(&other, ".news", "1 photo came with it").await?;
    other
        .script(&format!("location.hash = '#/photos/{}'", card.id()))
        .await?;
    other.find(".photo--small img").await?;
    other.picture("photos-wall").await?;
    let found = other.violations().await?;
    assert!(found.is_empty(), "{}", found.join("\n"));
    in_every_light(&other, card).await?;
    other.press_text("Side by side along the engine").await?;
    other.find(".wall--along, .wall").await?;
    other.picture("photos-along").await?;
    other
        .script(&format!("location.hash = '#/card/{}'", card.id()))
        .await?;
    let (again, same) = saved_card(&other).await?;
    assert_eq!(same, *kept);
    assert_eq!(
        fs::read(again).expect("a file"),
        fs::read(saved).expect("a file"),
        "both tablets write the same bytes"
    );
    other.close().await
}

/// The wall and a photo on a phone, in the other themes: nothing keeps anybody out, and nothing is wider than the screen.
async fn in_every_light(browser: &Browser, card: &Card) -> WebDriverResult<()> {
    let photo = browser
        .script("return document.querySelector('.photo--small').getAttribute('href')")
        .await?;
    let wall = format!("#/photos/{}", card.id());
    let photo = photo.as_str().expect("an address").to_owned();
    for (screen, theme) in [(SCREENS[2], "dark"), (SCREENS[0], "sun")] {
        let metrics = json!({
            "width": screen.width, "height": screen.height, "deviceScaleFactor": 1, "mobile": screen.touch,
        });
        browser
            .cdp("Emulation.setDeviceMetricsOverride", metrics)
            .await?;
        let dress = format!("document.documentElement.dataset.theme = '{theme}'");
        for (name, address) in [("wall", &wall), ("one", &photo)] {
            browser
                .script(&format!("location.hash = '{address}'"))
                .await?;
            browser.find(".photo--small img, #photo img").await?;
            browser.script(&dress).await?;
            browser
                .picture(&format!("photos-{name}-{}-{theme}", screen.name))
                .await?;
            let found = browser.violations().await?;
            assert!(found.is_empty(), "{name}, {theme}: {}", found.join("\n"));
            let wider = "return document.documentElement.scrollWidth - document.documentElement.clientWidth";
            assert_eq!(
                browser.script(wider).await?,
                json!(0),
                "{name} at {}",
                screen.name
            );
        }
    }
    let metrics = json!({ "width": SCREENS[1].width, "height": SCREENS[1].height, "deviceScaleFactor": 1, "mobile": true });
    browser
        .cdp("Emulation.setDeviceMetricsOverride", metrics)
        .await?;
    browser.script(&format!("location.hash = '{wall}'")).await?;
    browser.find(".photo--small img").await?;
    Ok(())
}

#[tokio::test]
async fn what_is_wrong_in_an_archive_is_said_and_the_rest_comes() -> WebDriverResult<()> {
    let cards = demo::cards().expect("the demo engines");
    let (_, card) = cards.first().expect("an engine");
    let (_server, browser) = at_the_bench("photos-wrong", SCREENS[0], card).await?;
    let give = async |bytes: &[u8], said: &str| {
        let path = written("given.card.zip", bytes);
        pick(&browser, "input[type=file]", &[&path]).await?;
        says(&browser, ".news", said).await
    };
    let mut writer = file::BundleWriter::new("x", "{}").expect("an archive");
    let mut whole = writer.take();
    whole.extend(writer.finish().expect("an archive"));
    give(&whole[..whole.len() - 10], "This is no whole zip archive").await?;
    give(&whole, "This is neither a card nor a plan nor a backup").await?;
    let png = {
        let mut png = Cursor::new(Vec::new());
        DynamicImage::new_rgb8(8, 8)
            .write_to(&mut png, ImageFormat::Png)
            .expect("a picture");
        png.into_inner()
    };
    let described = ringland_card::Photo {
        digest: PhotoDigest::of(b"another"),
        picture: Picture::of(&png).expect("a picture"),
        taken: ringland_card::Taken::AsFound,
    };
    let mut there = card.clone();
    let body = Body::Photo {
        about: None,
        photo: Box::new(described.clone()),
    };
    let id = ringland_card::EntryId::v7(1_900_000_000_000, [3; 10]);
    let device = ringland_card::DeviceId::v7(1, [78; 10]);
    let time = ringland_card::Timestamp::UNIX_EPOCH;
    let entry = ringland_card::Entry::new(id, device, there.next_lamport(), time, "Rater", body);
    there.append(entry).expect("an entry that may be");
    let mut writer = file::BundleWriter::new("six", &file::write(&there)).expect("an archive");
    writer.photo(&described, &png).expect("a photo");
    let wrong = {
        let mut bytes = writer.take();
        bytes.extend(writer.finish().expect("an archive"));
        bytes
    };
    let path = written("wrong.card.zip", &wrong);
    pick(&browser, "input[type=file]", &[&path]).await?;
    browser.press("#merge").await?;
    says(
        &browser,
        ".news",
        "1 photo was left out. Its content is not what its name says",
    )
    .await?;
    assert_eq!(on_disk(&browser).await?, 0);
    browser
        .script(&format!("location.hash = '#/photos/{}'", card.id()))
        .await?;
    says(&browser, ".photos", "Its picture is not on this tablet").await?;
    let struck = browser.script("return window.struck ?? 0").await?;
    assert_eq!(struck, json!(0));
    browser.close().await
}

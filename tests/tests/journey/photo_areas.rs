//! Areas read off a photo: outlined, parted, taken to the pad, changed there and kept.

use std::{fs, io::Cursor, path::PathBuf};

use image::{DynamicImage, ImageFormat, Rgb, RgbImage};
use ringland_card::{
    Areas, Body, Card, Look, Scale,
    file::read,
    photo::{LeftOut, PhotoAreas},
};
use suite::demo;
use thirtyfour::prelude::*;

use crate::{
    browser::{Browser, Kind, SCREENS},
    photos::{at_the_bench, pick, tap, written},
    plans::says,
    screens::{THEMES, look},
    serve,
};

/// A land as it is seen square on: carbon over three tenths of it, amber lacquer over two, the rest metal. Glare lies on
/// the carbon, over a tenth of the whole.
fn land() -> PathBuf {
    let scene = RgbImage::from_fn(1_600, 1_200, |x, y| {
        let glare = (160..480).contains(&x) && (300..900).contains(&y);
        let grain = u8::try_from((x * 7 + y * 13) % 9).unwrap_or_default();
        let [red, green, blue]: [u8; 3] = match x {
            _ if glare => [240, 240, 240],
            0..480 => [40, 38, 36],
            480..800 => [150, 105, 50],
            _ => [205, 202, 196],
        };
        Rgb([red + grain, green + grain, blue + grain])
    });
    let mut png = Cursor::new(Vec::new());
    DynamicImage::from(scene)
        .write_to(&mut png, ImageFormat::Png)
        .expect("a picture");
    written("land.png", &png.into_inner())
}

/// The engine, and the first place of it that is rated by carbon and lacquer.
fn engine() -> (Card, usize) {
    let cards = demo::cards().expect("the demo engines");
    let (_, card) = cards.into_iter().next().expect("an engine");
    let plan = card.plan();
    let by_area = card.index().leaves().iter().position(|leaf| {
        matches!(plan.scale(&leaf.characteristic(plan).scale), Some(Scale::Area { levels }) if levels.len() > 4)
    });
    let leaf = by_area.expect("something rated by area");
    (card, leaf)
}

/// The percentages of the classes on the screen.
async fn shares(browser: &Browser) -> WebDriverResult<Vec<f64>> {
    let said = "return [...document.querySelectorAll('.parted__share')].map(share => parseFloat(share.textContent))";
    let said = browser.script(said).await?;
    let all = said.as_array().expect("a list");
    Ok(all.iter().filter_map(serde_json::Value::as_f64).collect())
}

/// Waits until the classes are so many, and have such shares within a point.
async fn read_as(browser: &Browser, expected: &[f64]) -> WebDriverResult<()> {
    let want = serde_json::to_string(expected).expect("numbers");
    let script = format!(
        "const want = {want}; const have = [...document.querySelectorAll('.parted__share')].map(share => parseFloat(share.textContent));\n\
         return have.length === want.length && want.every((share, n) => Math.abs(share - have[n]) < 1)"
    );
    browser.until(&format!("shares of {want}"), &script).await
}

/// Takes the photo on the pad and goes to read it.
async fn photograph(browser: &Browser, card: &Card, leaf: usize) -> WebDriverResult<()> {
    browser
        .script(&format!("location.hash = '#/bench/{}/{leaf}'", card.id()))
        .await?;
    pick(browser, "#pad-photo", &[&land()]).await?;
    says(browser, "#photo-outcome", "1 photo kept").await?;
    browser.press("#pad-areas").await?;
    browser.find("#photo img").await.map(|_picture| ())
}

fn looks(card: &Card) -> impl Iterator<Item = &Areas> {
    card.entries().filter_map(|entry| match &entry.body {
        Body::Rating {
            look: Look::Areas(areas),
            ..
        } => Some(areas),
        _ => None,
    })
}

async fn kept(browser: &Browser, card: &Card) -> WebDriverResult<Card> {
    browser
        .script(&format!("location.hash = '#/card/{}'", card.id()))
        .await?;
    browser.find(".card").await?;
    browser.press_text("Save card as a file").await?;
    let saved = browser.saved(".card.json").await;
    let opened = read(&fs::read(saved).expect("the saved card")).expect("a card");
    assert!(opened.digest_matches);
    Ok(opened.card)
}

#[tokio::test]
async fn areas_are_read_off_a_photo_changed_and_kept() -> WebDriverResult<()> {
    let (card, leaf) = engine();
    let (_server, browser) = at_the_bench("areas", SCREENS[0], &card).await?;
    photograph(&browser, &card, leaf).await?;
    says(&browser, ".viewer__side", "Outline the surface").await?;
    browser.press("#areas-whole").await?;
    // Two classes to begin with; glare is as light as metal.
    browser
        .until(
            "classes",
            "return document.querySelectorAll('.parted__share').length === 2",
        )
        .await?;
    browser.press_text("3").await?;
    read_as(&browser, &[20.0, 20.0, 60.0]).await?;
    browser.picture("areas-glare").await?;
    browser.press("#areas-outline").await?;
    for corner in [
        (0.1, 0.25),
        (0.3, 0.25),
        (0.3, 0.75),
        (0.1, 0.75),
        (0.1, 0.25),
    ] {
        tap(&browser, corner).await?;
    }
    read_as(&browser, &[200.0 / 9.0, 200.0 / 9.0, 500.0 / 9.0]).await?;
    let found = look(&browser, "areas", &THEMES).await?;
    assert!(found.is_empty(), "{}", found.join("\n"));
    // The darkest is the worst level, the lightest clean, and the one between is said to be something else.
    let set = "const level = document.querySelectorAll('.parted__level')[1];\n\
        level.value = 'amber_lacquer'; level.dispatchEvent(new Event('change', { bubbles: true })); return level.value";
    assert_eq!(browser.script(set).await?, "amber_lacquer");
    browser.press("#areas-to-pad").await?;
    says(
        &browser,
        ".proposed",
        "Read off a photo: 3 classes by lightness",
    )
    .await?;
    browser.picture("areas-pad").await?;
    let found = browser.violations().await?;
    assert!(found.is_empty(), "{}", found.join("\n"));
    // One figure is changed by hand.
    let type_it = "const field = document.querySelector('[data-level=amber_lacquer]').parentElement.querySelector('input');\n\
        field.value = '25'; field.dispatchEvent(new Event('change', { bubbles: true }))";
    browser.script(type_it).await?;
    browser.press("#keep-areas").await?;
    let saved = kept(&browser, &card).await?;
    let read: Vec<&Areas> = looks(&saved)
        .filter(|areas| areas.read_off.is_some())
        .collect();
    let [areas] = read[..] else {
        panic!("one look that was read off a photo");
    };
    is_as_it_was_read(areas, &saved);
    browser.close().await
}

fn is_as_it_was_read(areas: &Areas, card: &Card) {
    let read: &PhotoAreas = areas.read_off.as_ref().expect("a reading");
    assert!(
        card.entry(read.photo)
            .is_some_and(|entry| matches!(entry.body, Body::Photo { .. }))
    );
    assert_eq!(read.region.corners.len(), 4);
    assert!(
        matches!(&read.region.left_out[..], [LeftOut::Outline { corners }] if corners.len() == 4)
    );
    assert_eq!((read.cuts.len(), read.classes.len()), (2, 3));
    assert_eq!(read.classes[2].level.as_str(), "clean");
    assert!(areas.changed_by_hand());
    assert_eq!(areas.shares.get("amber_lacquer"), Some(&25.0));
    let worst = areas
        .shares
        .get("heavy_carbon")
        .copied()
        .unwrap_or_default();
    assert!((worst - 200.0 / 9.0).abs() < 1.0, "{worst}");
}

#[tokio::test]
async fn a_cut_is_moved_and_a_brush_and_a_rectangle_count() -> WebDriverResult<()> {
    let (card, leaf) = engine();
    let (_server, browser) = at_the_bench("areas-hand", SCREENS[1], &card).await?;
    photograph(&browser, &card, leaf).await?;
    for corner in [(0.0, 0.0), (0.5, 0.0), (0.5, 1.0), (0.0, 1.0)] {
        tap(&browser, corner).await?;
    }
    // Half of the photo: carbon under four tenths of it, lacquer over four, glare over two.
    browser.press_text("3").await?;
    read_as(&browser, &[40.0, 40.0, 20.0]).await?;
    // Moved below every shade of the lacquer, the cut leaves it to the class above.
    let move_it = "const cut = document.querySelector('#areas-cut-1'); cut.value = '60';\n\
        cut.dispatchEvent(new Event('input', { bubbles: true }))";
    browser.script(move_it).await?;
    read_as(&browser, &[40.0, 0.0, 60.0]).await?;
    browser.press("#areas-anew").await?;
    read_as(&browser, &[40.0, 40.0, 20.0]).await?;
    // Four corners of a rectangle that the photo shows square on change nothing; those of one seen at a slant do.
    browser.press("#areas-straighten").await?;
    for corner in [(0.1, 0.1), (0.9, 0.1), (0.9, 0.9), (0.1, 0.9)] {
        tap(&browser, corner).await?;
    }
    read_as(&browser, &[40.0, 40.0, 20.0]).await?;
    for corner in [(0.1, 0.1), (0.9, 0.3), (0.9, 0.7), (0.1, 0.9)] {
        tap(&browser, corner).await?;
    }
    let more = "return parseFloat(document.querySelectorAll('.parted__share')[1].textContent) > 42";
    browser
        .until("what is farther away to count for more", more)
        .await?;
    browser.picture("areas-slant").await?;
    for corner in [(0.1, 0.1), (0.9, 0.9), (0.9, 0.1), (0.1, 0.9)] {
        tap(&browser, corner).await?;
    }
    says(&browser, ".viewer__side .trouble", "tap them in order").await?;
    let found = browser.violations().await?;
    assert!(found.is_empty(), "{}", found.join("\n"));
    browser.close().await
}

/// The worker stands in the page of the single file, and starts from there; and in the other browser too.
#[tokio::test]
async fn areas_are_read_in_other_editions_and_browsers() -> WebDriverResult<()> {
    let (card, leaf) = engine();
    let single = format!("file://{}", crate::dist().join("ringland.html").display());
    let server = serve();
    for (kind, name, address, screen) in [
        (Kind::Chromium, "areas-single", single.as_str(), SCREENS[2]),
        (Kind::Firefox, "areas-firefox", &server.url(), SCREENS[0]),
    ] {
        let browser = Browser::open_as(kind, name, screen).await?;
        browser.driver.goto(address).await?;
        crate::photos::sign_in(&browser, &card).await?;
        photograph(&browser, &card, leaf).await?;
        browser.press("#areas-whole").await?;
        browser.press_text("3").await?;
        read_as(&browser, &[20.0, 20.0, 60.0]).await?;
        let painted = "const canvas = document.querySelector('#areas-classes');\n\
            return canvas.width > 0 && canvas.getContext('2d').getImageData(1, 1, 1, 1).data[3] > 0";
        browser.until("the classes in colour", painted).await?;
        assert_eq!(shares(&browser).await?.len(), 3);
        browser.picture(name).await?;
        browser.close().await?;
    }
    Ok(())
}

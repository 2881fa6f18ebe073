//! Measuring a whole engine with a gauge that types, as it does: a number and Enter.

use std::{
    path::Path,
    time::{Duration, Instant},
};

use ringland_card::{
    Body, Card, CharacteristicId, Depth, Layout, PlaceId, Plan, Scale, builtin, file,
    gauging::{Decimal, Makes, Quantity, Size, SizeField, SizeSheet, Unit},
    plan::PlanIndex,
};
use thirtyfour::prelude::*;

use crate::{
    bench::new_engine_of,
    browser::{Browser, DESKTOP},
    plans::says,
    safe::in_database,
    serve,
};

/// How many readings a gauge sends at once: a second's worth of them.
const BURST: usize = 5;
/// The Enter key.
const ENTER: char = '\u{e007}';

fn plan() -> Plan {
    builtin(&Layout::inline_six(), Depth::Full).expect("the built-in plan")
}

/// What a gauge shows on every spot of an engine, in the order of the screen: kind after kind, part after part.
/// No two readings are alike, so that one that is dropped or put elsewhere is found.
fn figures(plan: &Plan) -> Vec<String> {
    let index = PlanIndex::of(plan);
    let mut figures = Vec::new();
    for (.., place) in plan.places() {
        for look in &place.looks {
            let Some(Scale::Gauged(scale)) = plan.scale(&look.scale) else {
                continue;
            };
            for _ in &place.positions {
                for spot in 0..scale.spots() {
                    let n = figures.len();
                    let small = scale.material.is_none() && scale.quantity == Quantity::Length;
                    let base = match scale.makes {
                        Makes::Difference if spot == 0 => 52,
                        Makes::Difference => 44,
                        Makes::Furthest if small => 1,
                        Makes::Furthest => 50,
                    };
                    figures.push(format!("{base}.{n:04}"));
                }
            }
        }
    }
    assert!(index.leaves().iter().any(|leaf| leaf.gauged));
    figures
}

async fn open_gauging(browser: &Browser) -> WebDriverResult<()> {
    browser
        .script("location.hash = location.hash.replace('bench', 'gauging')")
        .await?;
    browser.find(".gaugebox__read").await.map(|_field| ())
}

/// Types figures as a gauge does, into wherever the cursor is.
async fn types(browser: &Browser, figures: &[String]) -> WebDriverResult<()> {
    for burst in figures.chunks(BURST) {
        let enter = ENTER.to_string();
        let keys: String = burst
            .iter()
            .flat_map(|figure| [figure.as_str(), &enter])
            .collect();
        browser
            .driver
            .action_chain()
            .send_keys(keys)
            .perform()
            .await?;
    }
    Ok(())
}

async fn kept(browser: &Browser) -> WebDriverResult<()> {
    browser
        .until(
            "the readings to be kept",
            "return document.querySelector('#kept').textContent.startsWith('Kept')",
        )
        .await
}

/// Waits until so many readings are on the disk: what was typed ahead is not kept yet while the one before it is.
async fn on_disk(browser: &Browser, readings: usize) -> WebDriverResult<()> {
    let count = "const ask = db.transaction('entries').objectStore('entries').getAll();\n\
        ask.onsuccess = () => { db.close(); done(ask.result.filter(e => e.text.includes('\"kind\":\"reading\"') && e.text.includes('G. Auger')).length) }";
    for _ in 0..600 {
        if in_database(browser, count).await?.as_u64() == Some(readings as u64) {
            return Ok(());
        }
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
    panic!("{readings} readings never came to the disk");
}

fn readings(card: &Card) -> Vec<String> {
    card.entries()
        .filter_map(|entry| match &entry.body {
            Body::Reading { reading } => Some(reading.values[0].to_string()),
            _ => None,
        })
        .collect()
}

#[tokio::test]
async fn a_gauge_types_a_whole_engine_with_a_reload_in_the_middle() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("gauge", DESKTOP).await?;
    browser.driver.goto(server.url()).await?;
    new_engine_of(&browser, Depth::Full, "G. Auger").await?;
    open_gauging(&browser).await?;
    let plan = plan();
    let figures = figures(&plan);
    let began = Instant::now();
    browser.press(".gaugebox__read").await?;
    let half = figures.len() / 2;
    types(&browser, &figures[..half]).await?;
    on_disk(&browser, half).await?;
    browser.driver.refresh().await?;
    browser.find(".gaugebox__read").await?;
    // Back to the first field that is empty: kinds whose parts are all measured are passed over.
    let back = "const kinds = [...document.querySelectorAll('[data-kind]')];\n\
        const open = kinds.find(k => { const [a, b] = k.querySelector('.kinds__done').textContent.split('/'); return a !== b; });\n\
        open?.click(); return open !== undefined";
    browser.until("a kind that is not done", back).await?;
    let first = "const field = [...document.querySelectorAll('.gaugebox__read')].find(f => f.value === '');\n\
        field?.focus(); return field !== undefined";
    browser.until("an empty field", first).await?;
    types(&browser, &figures[half..]).await?;
    let asked = plan.measurement_count();
    browser
        .until(
            "every size to be measured",
            &format!("return document.querySelector('#gauged').textContent.startsWith('{asked} of {asked} ')"),
        )
        .await?;
    kept(&browser).await?;
    println!(
        "{} readings of {asked} sizes typed in {:.1} s",
        figures.len(),
        began.elapsed().as_secs_f64()
    );
    browser
        .script(
            "location.hash = location.hash.replace(/gauging.*/, m => m.replace('gauging', 'card'))",
        )
        .await?;
    browser.find(".card").await?;
    browser.press_text("Save card as a file").await?;
    let saved = browser.saved(".card.json").await;
    let bytes = std::fs::read(saved).expect("the saved card");
    let opened = file::read(&bytes).expect("a card");
    assert!(opened.digest_matches);
    assert_eq!(readings(&opened.card), figures);
    browser.close().await
}

#[tokio::test]
async fn the_next_figure_may_come_within_the_enter_that_ends_a_kind() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("quick-gauge", DESKTOP).await?;
    browser.driver.goto(server.url()).await?;
    new_engine_of(&browser, Depth::Full, "G. Auger").await?;
    open_gauging(&browser).await?;
    // The last field of the first kind, Enter, and at once where the next key would go: no picture in between.
    let at_once = "const last = [...document.querySelectorAll('.gaugebox__read')].at(-1);\n\
        last.focus(); last.value = '50.1234';\n\
        last.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true, cancelable: true }));\n\
        const next = document.activeElement;\n\
        next.value = '1'; window.typedInto = next;\n\
        return next.matches('.gaugebox__read') && next !== last && next === document.querySelector('.gaugebox__read')";
    assert_eq!(browser.script(at_once).await?.as_bool(), Some(true));
    // What was begun there still stands once the screen has come to rest.
    on_disk(&browser, 1).await?;
    let stands =
        "return window.typedInto === document.activeElement && window.typedInto.value === '1'";
    assert_eq!(browser.script(stands).await?.as_bool(), Some(true));
    browser.close().await
}

#[tokio::test]
async fn a_slip_is_asked_about_and_kept_only_on_a_second_word() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("slip", DESKTOP).await?;
    browser.driver.goto(server.url()).await?;
    new_engine_of(&browser, Depth::Full, "G. Auger").await?;
    open_gauging(&browser).await?;
    browser.press("[data-kind] .kinds__name").await?;
    let bores = "const kind = [...document.querySelectorAll('[data-kind]')].find(k => k.textContent.startsWith('Liner · bore'));\n\
        kind?.click(); return kind !== undefined";
    browser.until("the bores", bores).await?;
    says(&browser, "#kind-title", "Bore diameter").await?;
    browser.press(".gaugebox__read").await?;
    types(
        &browser,
        &[
            "130.021".to_owned(),
            "130.018".to_owned(),
            "13.0017".to_owned(),
        ],
    )
    .await?;
    says(&browser, ".asked", "Did the decimal point slip?").await?;
    browser.picture("gauging-slip").await?;
    // What was asked about is not kept.
    let values = "return [...document.querySelectorAll('.gaugebox__read')].slice(0, 4).map(f => f.dataset.kept ?? '').join(' ')";
    let before = browser.script(values).await?;
    assert_eq!(before.as_str().map(str::trim), Some("130.021 130.018"));
    browser.press("#slip-again").await?;
    browser.script("document.activeElement.select()").await?;
    types(
        &browser,
        &["130.017".to_owned(), "130,015 130.016".to_owned()],
    )
    .await?;
    says(&browser, "#gauged", "1 of 249").await?;
    // A comma is a point, and repeats are kept together.
    let repeats = "return document.querySelectorAll('.gaugebox__read')[3].dataset.kept";
    browser
        .until("the repeats", &format!("{repeats} === '130,015 130.016'"))
        .await?;
    browser.close().await
}

/// A sheet of two limits, one of which may lie inside the new range.
fn sheet(limit: &str) -> SizeSheet {
    let mut size = Size::open(
        PlaceId::new("liner").expect("an id"),
        CharacteristicId::new("bore").expect("an id"),
        Unit::Mm,
    );
    for (field, figure) in [
        (SizeField::NewLow, "130.000"),
        (SizeField::NewHigh, "130.025"),
        (SizeField::LimitHigh, limit),
    ] {
        *size.field_mut(field) = Some(Decimal::new(figure).expect("a figure"));
    }
    SizeSheet {
        name: "Yard sheet".to_owned(),
        source: "Invented".to_owned(),
        break_in_m: None,
        sizes: vec![size],
    }
}

async fn pick(browser: &Browser, input: &str, path: &Path) -> WebDriverResult<()> {
    let input = browser.find(input).await?;
    input.send_keys(path.to_string_lossy()).await
}

#[tokio::test]
async fn a_size_sheet_is_opened_kept_used_and_comes_back_from_a_backup() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("sheet", DESKTOP).await?;
    browser.driver.goto(server.url()).await?;
    new_engine_of(&browser, Depth::Full, "G. Auger").await?;
    open_gauging(&browser).await?;
    browser.press("#sheet").await?;
    let path = std::env::temp_dir().join(format!("ringland-{}.sizes.json", std::process::id()));
    // One that contradicts itself is refused with the place named, and is not in hand.
    std::fs::write(&path, file::write_sizes(&sheet("130.010"))).expect("a file");
    pick(&browser, "#open-sheet", &path).await?;
    says(&browser, ".sheets [role=alert]", "130.010").await?;
    // A row that the engine has no use for is named as soon as the sheet is at hand.
    let mut weighed = sheet("130.150");
    weighed.sizes[0].unit = Unit::G;
    std::fs::write(&path, file::write_sizes(&weighed)).expect("a file");
    pick(&browser, "#open-sheet", &path).await?;
    says(
        &browser,
        "#sheet-misfits",
        "Liner, bore diameter: the sheet has it in g",
    )
    .await?;
    std::fs::write(&path, file::write_sizes(&sheet("130.150"))).expect("a file");
    pick(&browser, "#open-sheet", &path).await?;
    browser
        .until(
            "the right sheet in hand",
            "return document.querySelector('#sheet-name').value === 'Yard sheet' \
             && document.querySelector('#sheet-misfits').textContent === ''",
        )
        .await?;
    browser.press("#keep-sheet").await?;
    says(&browser, ".sheets [role=status]", "is on this tablet").await?;
    browser.press("#hold").await?;
    says(
        &browser,
        ".sheets [role=status]",
        "Held against “Yard sheet”",
    )
    .await?;
    let found = browser.violations().await?;
    assert!(found.is_empty(), "{}", found.join("\n"));

    browser.press("a[href='#/shelf']").await?;
    browser.press_text("Back up everything").await?;
    says(
        &browser,
        ".notice",
        "Backup with 8 engines and 1 size sheet saved",
    )
    .await?;
    let backup = browser.saved_as("ringland-backup-", ".json").await;
    pick(&browser, "#restore", &backup).await?;
    says(&browser, "#news", "“Yard sheet” was on this tablet already").await?;
    // A sheet that is dropped on the Shelf is taken in too.
    let other = SizeSheet {
        name: "Other sheet".to_owned(),
        ..sheet("130.200")
    };
    std::fs::write(&path, file::write_sizes(&other)).expect("a file");
    pick(&browser, "#open-files", &path).await?;
    says(&browser, "#news", "“Other sheet” is on this tablet").await?;
    std::fs::remove_file(&path).expect("the file");
    browser.close().await
}

/// Opens the Card of a demo engine.
async fn card_of(browser: &Browser, url: &str, name: &str) -> WebDriverResult<()> {
    browser.driver.goto(url).await?;
    browser.find_engine(name).await?;
    let card = "const way = document.querySelector(\"[data-found] a[href^='#/card/']\");\n\
        if (way) location.hash = way.getAttribute('href'); return way !== null";
    browser.until("the way to its Card", card).await?;
    browser.find(".measured__lead").await.map(|_lead| ())
}

#[tokio::test]
async fn the_card_shows_what_was_measured_down_to_the_budget() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("measured", DESKTOP).await?;
    card_of(&browser, &server.url(), "Tarn 21").await?;
    says(&browser, ".measured__lead", "Worst share of allowance").await?;
    // One lobe is past its limit; from the list to its kind, from there to its readings and budget.
    says(&browser, ".measured__list", "injector lobe · lift").await?;
    browser.press(".measured__list [data-go-size]").await?;
    says(&browser, ".node--measured[open] .table--sizes", "beyond").await?;
    let focus = "return document.activeElement.closest('.node--measured')?.querySelector('.table--sizes') !== null";
    browser.until("the keyboard on the kind", focus).await?;
    browser
        .press(".node--measured[open] .node--fold > summary")
        .await?;
    for said in ["height over the nose", "base circle"] {
        says(&browser, ".measured__one .table--readings", said).await?;
    }
    // A lift is a difference of two readings with one gauge: what that is off by drops out.
    says(
        &browser,
        ".measured__one .table--budget",
        "Smallest step of the gauge",
    )
    .await?;
    says(&browser, "#outlook", "already beyond its limit").await?;
    says(&browser, "#outlook", "Assumes that it goes on wearing").await?;
    says(&browser, "#outlook", "licensed people").await?;
    let found = browser.violations().await?;
    assert!(found.is_empty(), "{}", found.join("\n"));
    browser.picture("card-measured").await?;
    browser.close().await
}

#[tokio::test]
async fn what_was_left_is_worked_out_on_asking_and_may_be_stopped() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("outlook", DESKTOP).await?;
    card_of(&browser, &server.url(), "Tarn 14").await?;
    browser
        .script("location.hash = location.hash.replace('card', 'gauging')")
        .await?;
    browser.find("#work-out").await?;
    // Slowed down, so that there is time to stop it.
    let slowed = |rate: u32| {
        browser.cdp(
            "Emulation.setCPUThrottlingRate",
            serde_json::json!({ "rate": rate }),
        )
    };
    slowed(20).await?;
    browser
        .script("document.querySelector('#work-out').click()")
        .await?;
    browser
        .until(
            "the button to stop it",
            "const stop = document.querySelector('#outlook .news__progress button'); stop?.click(); return stop !== null",
        )
        .await?;
    says(&browser, "#outlook", "Stopped before it was worked out").await?;
    slowed(1).await?;
    browser.press("#work-out").await?;
    says(&browser, "#outlook", "gets there first with").await?;
    says(&browser, "#outlook", "km more,").await?;
    browser.close().await
}

/// The demo has four engines of this model, each stripped once.
#[tokio::test]
async fn an_engine_stands_beside_the_others_of_its_model() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("over-run", DESKTOP).await?;
    card_of(&browser, &server.url(), "Tarn 21").await?;
    browser
        .script("location.hash = location.hash.replace('card', 'gauging')")
        .await?;
    browser.find("#over-run-begin").await?;
    let kind = "const kinds = [...document.querySelectorAll('[data-kind]')];\n\
        kinds.find(kind => kind.textContent.includes('Ring, top · end gap'))?.click(); return kinds.length > 0";
    browser.until("the top ring's end gap", kind).await?;
    browser.press("#over-run-begin").await?;
    says(&browser, "#over-run", "4 engines, 4 strip-downs").await?;
    says(&browser, "#over-run", "Taken: a straight line").await?;
    says(&browser, "#over-run", "This engine has worn").await?;
    let marks = "return document.querySelectorAll('#over-run .plot__mark').length === 8";
    browser
        .until("a mark for each and one in the key", marks)
        .await?;
    let found = browser.violations().await?;
    assert!(found.is_empty(), "{}", found.join("\n"));
    browser.picture("over-run").await?;
    // Another kind needs no reading anew; the other models come in when they are asked for.
    browser
        .press("#over-run .choice__one:has([name=which-engines]):last-child")
        .await?;
    // The one that is half done has not been measured there.
    says(&browser, "#over-run", "6 engines, 6 strip-downs").await?;
    says(&browser, "#over-run", "1 left out").await?;
    browser
        .until(
            "another kind",
            &kind.replace("Ring, top · end gap", "Liner · bore"),
        )
        .await?;
    says(&browser, "#over-run", "of wear:").await?;
    browser.close().await
}

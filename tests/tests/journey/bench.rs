//! The main journey: a whole inline six, by touch and by keyboard, and what comes after it.

use std::time::{Duration, Instant};

use ringland_card::{
    Depth, Layout, Plan, Scale, file,
    plan::{PlanIndex, builtin},
};
use thirtyfour::prelude::*;

use crate::{
    browser::{Browser, DESKTOP, SCREENS},
    serve,
};

/// The most taps that a rating may cost on average.
const TAPS_PER_RATING: f64 = 1.3;

fn full_plan() -> Plan {
    builtin(&Layout::inline_six(), Depth::Full).expect("the built-in plan")
}

/// Makes a new inline six under the full plan; the Bench opens.
async fn new_engine(browser: &Browser, rater: &str) -> WebDriverResult<()> {
    new_engine_of(browser, Depth::Full, rater).await
}

/// Makes a new inline six; the Bench opens.
pub(crate) async fn new_engine_of(
    browser: &Browser,
    depth: Depth,
    rater: &str,
) -> WebDriverResult<()> {
    browser.press("a[href='#/new']").await?;
    if depth == Depth::Short {
        browser.press(".depth .choice__one:nth-child(2)").await?;
    }
    browser
        .find("#fact-name")
        .await?
        .send_keys("Trial engine")
        .await?;
    if let Ok(field) = browser
        .driver
        .find(By::Css("#rater-name, #fact-rater, #rater"))
        .await
    {
        field.send_keys(rater).await?;
    }
    browser.press_text("Put it on the bench").await?;
    browser.find(".bench").await?;
    Ok(())
}

/// What the pad offers, read in one go.
async fn pad(browser: &Browser) -> WebDriverResult<serde_json::Value> {
    browser
        .script(
            "const pad = document.querySelector('.pad');\n\
             const has = css => pad.querySelector(css) !== null;\n\
             const kind = has('[data-grade]') ? 'grade' : has('[data-state]') ? 'state'\n\
               : has('[data-percent]') ? 'percent' : has('[data-count]') ? 'count'\n\
               : has('.painter') ? 'areas' : 'none';\n\
             const alike = [...pad.querySelectorAll('.pad__act')].find(b => b.dataset.act === 'alike');\n\
             const [done, all] = document.querySelector('#progress').textContent.match(/[0-9,]+/g).map(t => Number(t.replace(',', '')));\n\
             return { kind, done, all, rest: alike ? Number(alike.dataset.rest) : 0,\n\
               title: pad.querySelector('.pad__title')?.textContent ?? '' }",
        )
        .await
}

/// Rates what is on the pad by hand; gives the taps it took. A drag is one tap.
async fn rate_by_touch(browser: &Browser, kind: &str, n: usize) -> WebDriverResult<usize> {
    let one = |css: String| async move { browser.press(&css).await };
    match kind {
        "grade" => {
            let grade = [
                "none",
                "trace",
                "trace",
                "trace_to_light",
                "light",
                "medium",
            ][n % 6];
            one(format!(".pad [data-grade='{grade}']")).await?;
            Ok(1)
        }
        "state" => {
            one(".pad [data-state]".to_owned()).await?;
            Ok(1)
        }
        "percent" => {
            let percent = [0, 5, 10, 80, 100][n % 5];
            one(format!(".pad [data-percent='{percent}']")).await?;
            Ok(1)
        }
        "count" => {
            one(format!(".pad [data-count='{}']", n % 4)).await?;
            Ok(1)
        }
        "areas" => {
            let surface = browser.find(".painter__surface").await?;
            surface.scroll_into_view().await?;
            browser
                .driver
                .action_chain()
                .move_to_element_with_offset(&surface, -150, 0)
                .click_and_hold()
                .move_by_offset(100, 0)
                .move_by_offset(60, 0)
                .release()
                .perform()
                .await?;
            one("#keep-areas".to_owned()).await?;
            Ok(2)
        }
        other => panic!("nothing to rate on the pad: {other}"),
    }
}

#[tokio::test]
async fn a_whole_inline_six_by_touch() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("touch", SCREENS[0]).await?;
    browser.driver.goto(server.url()).await?;
    new_engine(&browser, "A. Toucher").await?;
    browser.press(".pad .button--act").await?;

    let (mut taps, mut ratings) = (0usize, 0usize);
    let mut row = String::new();
    loop {
        let now = pad(&browser).await?;
        let (done, all) = (as_usize(&now["done"]), as_usize(&now["all"]));
        if done == all {
            ratings = all;
            break;
        }
        let kind = now["kind"].as_str().unwrap_or_default().to_owned();
        taps += rate_by_touch(&browser, &kind, taps).await?;
        browser
            .until(
                "the look to be kept",
                &format!(
                    "return !document.querySelector('#progress').textContent.startsWith('{done} ')"
                ),
            )
            .await?;
        // Every other row: the first by hand, the rest alike, as a hand would on a row of good parts.
        let after = pad(&browser).await?;
        let rest = as_usize(&after["rest"]);
        if rest > 1 && ratings % 2 == 0 && after["title"] != row.as_str() {
            browser.press(".pad__act[data-act='alike']").await?;
            taps += 1;
            let done = as_usize(&after["done"]);
            browser
                .until(
                    "the row to be kept",
                    &format!("return !document.querySelector('#progress').textContent.startsWith('{done} ')"),
                )
                .await?;
        }
        row = after["title"].as_str().unwrap_or_default().to_owned();
        ratings += 1;
    }
    let share = taps as f64 / ratings as f64;
    println!("{ratings} ratings by touch in {taps} taps: {share:.2} each");
    assert_eq!(ratings, full_plan().rating_count());
    assert!(share <= TAPS_PER_RATING, "{share:.2} taps a rating");
    browser.close().await?;
    Ok(())
}

fn as_usize(value: &serde_json::Value) -> usize {
    value
        .as_u64()
        .and_then(|n| usize::try_from(n).ok())
        .unwrap_or_default()
}

/// The keys that rate every leaf of a plan, along the engine.
pub(crate) fn keys(plan: &Plan) -> Vec<(usize, String)> {
    let index = PlanIndex::of(plan);
    let by_eye = |leaf: &usize| !index.leaves()[*leaf].gauged;
    let mut leaves: Vec<usize> = (0..index.leaves().len()).filter(by_eye).collect();
    leaves.sort_by_key(|n| {
        let leaf = index.leaves()[*n];
        (
            leaf.section,
            leaf.part,
            leaf.place,
            leaf.look,
            leaf.position,
        )
    });
    leaves
        .into_iter()
        .map(|n| {
            let scale = &index.leaves()[n].characteristic(plan).scale;
            let keys = match plan.scale(scale) {
                Some(Scale::Grade { .. } | Scale::State { .. }) => "1".to_owned(),
                Some(Scale::Extent { .. }) => format!("12{}", '\u{e007}'),
                _ => format!("3{}", '\u{e007}'),
            };
            (n, keys)
        })
        .collect()
}

/// Types them in bursts, quicker than any hand: what is typed ahead of the screen waits its turn.
pub(crate) async fn type_looks(
    browser: &Browser,
    looks: &[(usize, String)],
) -> WebDriverResult<()> {
    let mut n = 0;
    for burst in looks.chunks(40) {
        n += burst.len();
        let typed: String = burst.iter().map(|(_, keys)| keys.as_str()).collect();
        browser
            .driver
            .action_chain()
            .send_keys(typed)
            .perform()
            .await?;
        browser
            .until(
                &format!("{n} looks to be kept"),
                &format!(
                    "return document.querySelector('#progress').textContent.startsWith('{n} ')"
                ),
            )
            .await?;
    }
    Ok(())
}

#[tokio::test]
async fn a_whole_inline_six_by_keyboard_then_reload_card_save_open_merge() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("keyboard", DESKTOP).await?;
    browser.driver.goto(server.url()).await?;
    new_engine(&browser, "B. Keyes").await?;
    browser.press(".pad .button--act").await?;
    let plan = full_plan();
    let began = Instant::now();
    type_looks(&browser, &keys(&plan)).await?;
    let all = plan.rating_count();
    browser
        .until("every look to be kept", &format!("return document.querySelector('#progress').textContent.startsWith('{all} of {all} ')"))
        .await?;
    println!(
        "{all} ratings by keyboard in {:.1} s",
        began.elapsed().as_secs_f64()
    );

    // Reload: what the screen said was kept is there.
    browser.driver.refresh().await?;
    browser
        .until("the card after a reload", &format!("return document.querySelector('#progress')?.textContent.startsWith('{all} of {all} ') ?? false"))
        .await?;

    // The Card, and the file.
    browser.press(".top__tab[href^='#/card']").await?;
    browser.find(".card").await?;
    browser.press_text("Save").await?;
    let path = browser.saved(".card.json").await;
    tokio::time::sleep(Duration::from_millis(200)).await;
    let bytes = std::fs::read(&path).expect("the saved file");
    let opened = file::read(&bytes).expect("a card");
    assert!(opened.digest_matches);
    let standing = opened.card.standing();
    let answered = standing
        .looks
        .iter()
        .filter(|looks| !looks.is_empty())
        .count();
    assert_eq!(answered, all);
    // Same input, same bytes out, natively and in the browser.
    assert_eq!(file::write(&opened.card).as_bytes(), bytes.as_slice());

    // Opened again: nothing new comes in; a second tablet's looks do.
    let second = with_one_more_look(&opened.card, &path);
    browser.press(".top__tab[href='#/shelf']").await?;
    for (file, expected) in [(path.clone(), "0"), (second, "1")] {
        let input = browser.find("input[type=file]").await?;
        input.send_keys(file.to_string_lossy().to_string()).await?;
        if expected != "0" {
            browser.press("#merge").await?;
        }
        browser
            .until(
                &format!("{expected} entries merged"),
                &format!("return new RegExp('(^|[^0-9]){expected} (new )?entr').test(document.body.innerText) || ({expected} === 0 && /[Nn]othing new/.test(document.body.innerText))"),
            )
            .await?;
    }
    let loaded = browser.loaded().await?;
    let outside: Vec<&String> = loaded
        .iter()
        .filter(|address| !address.starts_with(&server.url()))
        .collect();
    assert!(
        outside.is_empty(),
        "loaded from beyond its own origin: {outside:?}"
    );
    browser.close().await?;
    Ok(())
}

/// The same card with one look more, as another tablet would have written it.
fn with_one_more_look(card: &ringland_card::Card, beside: &std::path::Path) -> std::path::PathBuf {
    use ringland_card::{Body, DeviceId, Entry, EntryId, Grade, Look, Timestamp};
    let mut other = card.clone();
    let leaf = other.index().leaves().iter().find(|leaf| {
        matches!(
            other.plan().scale(&leaf.characteristic(other.plan()).scale),
            Some(Scale::Grade { .. })
        )
    });
    let at = leaf.expect("a grade").at(other.plan());
    let entry = Entry::new(
        EntryId::v7(1, [5; 10]),
        DeviceId::v7(1, [6; 10]),
        other.next_lamport(),
        Timestamp::UNIX_EPOCH,
        "C. Second",
        Body::Rating {
            at,
            look: Look::Grade(Grade::Light),
        },
    );
    other.append(entry).expect("one more look");
    let path = beside.with_file_name("second.card.json");
    std::fs::write(&path, file::write(&other)).expect("a file beside the first");
    path
}

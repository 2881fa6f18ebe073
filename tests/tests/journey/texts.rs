//! Markup, scripts and text that turns direction, in every field that takes text: shown, never obeyed.

use ringland_card::{
    About, Body, Card, CardId, Depth, DeviceId, Entry, EntryId, Fact, Grade, Layout, Look,
    Timestamp, builtin, file, scale::Scale,
};
use serde_json::json;
use thirtyfour::prelude::*;

use crate::{
    browser::{Browser, DESKTOP},
    serve,
};

/// What would act if it were taken for markup, and what would turn the text after it.
const HOSTILE: &str = "\u{202e}<img src=x onerror=\"window.struck=1\"></p><script>window.struck=1</script>\
    <svg onload='window.struck=1'>\u{200b}{n?a:b}&amp;";

pub(crate) fn hostile_card() -> Card {
    let mut plan = builtin(&Layout::inline_six(), Depth::Short).expect("the built-in plan");
    HOSTILE.clone_into(&mut plan.name);
    HOSTILE.clone_into(&mut plan.version);
    for section in &mut plan.sections {
        section.label = Some(HOSTILE.to_owned());
        for part in &mut section.parts {
            part.label = Some(HOSTILE.to_owned());
            for place in &mut part.places {
                place.label = Some(HOSTILE.to_owned());
                for position in &mut place.positions {
                    position.column.push_str("<b>");
                }
                for look in &mut place.looks {
                    look.label = Some(HOSTILE.to_owned());
                }
            }
        }
    }
    let mut card = Card::new(CardId::v7(1, [1; 10]), plan.clone()).expect("a sound plan");
    let leaf = card
        .index()
        .leaves()
        .iter()
        .find(|leaf| {
            let scale = plan.scale(&leaf.characteristic(&plan).scale);
            matches!(scale, Some(Scale::Grade { .. }))
        })
        .expect("a grade")
        .at(&plan);
    let text = || HOSTILE.to_owned();
    let fact = |fact| Body::Fact { fact };
    let about = About {
        position: leaf.position.clone(),
        characteristic: None,
    };
    let rating = |grade| Body::Rating {
        at: leaf.clone(),
        look: Look::Grade(grade),
    };
    let id = |n: u64| EntryId::v7(1, [u8::try_from(n).unwrap_or_default(); 10]);
    let bodies = [
        fact(Fact::Name(text())),
        fact(Fact::Fleet(text())),
        fact(Fact::Vehicle(text())),
        fact(Fact::Model(text())),
        fact(Fact::Serial(text())),
        fact(Fact::Site(text())),
        fact(Fact::Duty(text())),
        fact(Fact::Oil(text())),
        fact(Fact::OilGrade(text())),
        fact(Fact::OilCategory(text())),
        Body::Remark {
            about: None,
            text: text(),
        },
        Body::Remark {
            about: Some(about),
            text: text(),
        },
        rating(Grade::Severe),
        rating(Grade::Light),
        Body::Void {
            entry: id(14),
            reason: text(),
        },
    ];
    for (n, body) in (1u64..).zip(bodies) {
        let device = DeviceId::v7(1, [1; 10]);
        let rater: String = HOSTILE.chars().take(90).collect();
        let entry = Entry::new(id(n), device, n, Timestamp::UNIX_EPOCH, &rater, body);
        card.append(entry).expect("an entry that may be");
    }
    card
}

#[tokio::test]
async fn text_from_outside_is_shown_and_never_obeyed() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("texts", DESKTOP).await?;
    browser.driver.goto(server.url()).await?;
    let card = hostile_card();
    let path =
        std::env::temp_dir().join(format!("ringland <b>texts{}.card.json", std::process::id()));
    std::fs::write(&path, file::write(&card)).expect("a file");
    let input = browser.find("input[type=file]").await?;
    input.send_keys(path.to_string_lossy().to_string()).await?;
    let id = card.id();
    browser
        .until(
            "the engine on the Shelf",
            &format!("return document.querySelector(\"a[href='#/card/{id}']\") !== null"),
        )
        .await?;
    let _left = std::fs::remove_file(&path);
    for (screen, there) in [
        ("shelf", ".engine"),
        ("facts", "#fact-name"),
        ("bench", ".bench .map"),
        ("card", ".card .score"),
    ] {
        let address = match screen {
            "shelf" => "#/shelf".to_owned(),
            other => format!("#/{other}/{id}"),
        };
        browser
            .script(&format!("location.hash = {}", json!(address)))
            .await?;
        browser.find(there).await?;
        if screen == "bench" {
            browser.press(".pad .button--act").await?;
            browser.find(".pad__title").await?;
        }
        if screen == "card" {
            browser.press_text("Open everything").await?;
        }
        tokio::time::sleep(std::time::Duration::from_millis(900)).await;
        let found = browser
            .script(
                "const own = new Set([...document.scripts]);\n\
                 return [window.struck ?? 0,\n\
                   document.querySelectorAll('#main img, #main script, #main [onerror], #main [onload]').length,\n\
                   document.body.textContent.includes('<img src=x')\n\
                     || [...document.querySelectorAll('input')].some(i => i.value.includes('<img src=x'))]",
            )
            .await?;
        assert_eq!(found, json!([0, 0, true]), "on {screen}");
    }
    browser.close().await
}

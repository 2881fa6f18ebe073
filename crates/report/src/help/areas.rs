//! How to paint areas.

use ringland_card::{LevelId, entry::Stretch, scale::CLEAN};

use super::figure;
use crate::{
    format::NBSP,
    markup::Html,
    swatch::{AREA_PERCENTS, Patches, area, land, level_chip},
    words::Words,
};

/// The levels of the example, worst first, as a plan's scale for lands has them.
const LEVELS: [&str; 6] = [
    "heavy_carbon",
    "medium_carbon",
    "light_carbon",
    "black_lacquer",
    "amber_lacquer",
    "light_amber_lacquer",
];

/// What is painted in the example: level and fields.
const PAINTED: [(&str, u8); 4] = [
    (CLEAN, 4),
    ("heavy_carbon", 9),
    ("amber_lacquer", 12),
    (CLEAN, 11),
];

pub(super) fn page(html: &mut Html, words: &Words) {
    let help = &words.help_areas;
    html.el("p class=\"help__lead\"", help.lead)
        .open("section")
        .el("h2", help.steps)
        .list(
            "ol",
            &[
                help.step_level,
                help.step_paint,
                help.step_share,
                help.step_rest,
                help.step_keep,
            ],
        )
        .open("div class=\"help__wide\"")
        .markup(&example(words))
        .close("div")
        .el("p class=\"fine\"", help.example)
        .close("section");
    html.open("section")
        .el("h2", help.levels)
        .list("ul", &[help.carbon, help.lacquer, help.sludge])
        .open("ul class=\"help__levels\"");
    let ids = levels();
    for (number, level) in ids.iter().enumerate() {
        html.open("li")
            .markup(&level_chip(number, ids.len(), None))
            .el("span", words.term(level.as_str()).unwrap_or_default())
            .close("li");
    }
    html.close("ul").close("section");
    shares(html, words);
    html.open("section")
        .el("h2", help.sum)
        .list("ul", &[help.sum_demerit, help.sum_merit])
        .close("section");
}

fn levels() -> Vec<LevelId> {
    LEVELS
        .into_iter()
        .filter_map(|id| LevelId::new(id).ok())
        .collect()
}

fn example(words: &Words) -> String {
    let painted: Vec<Stretch> = PAINTED
        .into_iter()
        .filter_map(|(level, fields)| Some((LevelId::new(level).ok()?, fields).into()))
        .collect();
    let ids = levels();
    let ids: Vec<&LevelId> = ids.iter().collect();
    land(&painted, &ids, words, Some(words.help_areas.example))
}

/// Shares drawn, to hold a surface against.
fn shares(html: &mut Html, words: &Words) {
    let help = &words.help_areas;
    html.open("section")
        .el("h2", help.shares)
        .el("p", help.shares_hint);
    for (patches, name) in Patches::ALL
        .into_iter()
        .zip([help.scattered, help.clustered])
    {
        html.el("h3", name)
            .open("div class=\"help__figures help__figures--row\"");
        for percent in AREA_PERCENTS {
            let picture = area(percent, patches, None).unwrap_or_default();
            let share = [&percent.to_string(), NBSP, "%"].concat();
            figure(html, &picture, &share, "");
        }
        html.close("div");
    }
    html.close("section");
}

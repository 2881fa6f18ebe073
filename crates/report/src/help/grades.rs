//! How to grade.

use ringland_card::Grade;

use super::figure;
use crate::{
    markup::Html,
    swatch::{Surface, grade, grade_on},
    words::Words,
};

pub(super) fn page(html: &mut Html, words: &Words) {
    let help = &words.help_grades;
    html.el("p class=\"help__lead\"", help.lead)
        .open("section")
        .el("h2", help.steps)
        .list(
            "ol",
            &[
                help.step_wipe,
                help.step_light,
                help.step_nail,
                help.step_whole,
                help.step_between,
                help.step_cause,
                help.step_not,
            ],
        )
        .el("p class=\"fine\"", help.by_keys)
        .close("section");
    html.open("section")
        .el("h2", help.wear)
        .el("p class=\"fine\"", help.cut)
        .open("div class=\"help__figures\"");
    for whole in Grade::WHOLE {
        let meaning = words.grade_meaning(whole).unwrap_or_default();
        figure(html, &grade(whole, None), &words.grade(whole), meaning);
    }
    html.close("div").close("section");
    html.open("section").el("h2", help.surfaces);
    for surface in Surface::ALL {
        html.el("h3", kind(words, surface))
            .open("div class=\"help__figures help__figures--row\"");
        for whole in Grade::WHOLE {
            figure(
                html,
                &grade_on(surface, whole, None),
                &words.grade(whole),
                "",
            );
        }
        html.close("div");
    }
    html.close("section");
}

fn kind(words: &Words, surface: Surface) -> &'static str {
    let help = &words.help_grades;
    match surface {
        Surface::Steel => help.steel,
        Surface::Lining => help.lining,
        Surface::Pitted => help.pitted,
        Surface::Heat => help.heat,
        Surface::Coated => help.coated,
    }
}

//! What the score means and what it does not.

use crate::{markup::Html, ramp, swatch::interval_bar, words::Words};

pub(super) fn page(html: &mut Html, words: &Words) {
    let help = &words.help_score;
    html.el("p class=\"help__lead\"", help.lead)
        .open("section")
        .el("h2", help.means)
        .list("ul", &[help.means_looks, help.means_cap, help.means_two])
        .close("section");
    html.open("section")
        .el("h2", help.around)
        .list(
            "ul",
            &[
                help.around_interval,
                help.around_bounds,
                help.around_coverage,
            ],
        )
        .open("div class=\"help__wide\"")
        .markup(&interval_bar(7.3, (6.8, 7.8), (5.9, 8.4), words))
        .close("div")
        .el("p class=\"fine\"", help.around_example)
        .close("section");
    html.open("section")
        .el("h2", help.ramp)
        .open("ul class=\"help__ramp num\"");
    for score in 0..=10_u8 {
        let class = ["chip ", ramp::class(f64::from(score))].concat();
        html.with("li", &[("class", &class)])
            .text(&words.numbers.score(f64::from(score)))
            .close("li");
    }
    html.close("ul")
        .el("p class=\"fine\"", help.ramp_hint)
        .close("section");
    html.open("section class=\"help__not\"")
        .el("h2", help.not)
        .list(
            "ul",
            &[
                help.not_reuse,
                help.not_life,
                help.not_hidden,
                help.not_standard,
                help.not_compare,
                help.not_cause,
            ],
        )
        .el("p class=\"caution\"", words.cautions.reuse)
        .close("section");
}

//! How to photograph a part, mark it, and read areas off the photo.

use ringland_assess::photo::count::ShadeCount;
use ringland_stats::threshold::Histogram;

use crate::{markup::Html, photo::shades, words::Words};

/// Shades of a surface of three kinds as they may be: figures of the middle, the spread and the area of each.
const HUMPS: [(f64, f64, f64); 3] = [(38.0, 12.0, 26.0), (118.0, 16.0, 22.0), (198.0, 14.0, 52.0)];
/// Where they part.
const CUTS: [u8; 2] = [74, 160];

pub(super) fn page(html: &mut Html, words: &Words) {
    let help = &words.help_photos;
    html.el("p class=\"help__lead\"", help.lead)
        .open("section")
        .el("h2", help.take)
        .list(
            "ul",
            &[
                help.take_square,
                help.take_light,
                help.take_rule,
                help.take_before,
            ],
        )
        .close("section")
        .open("section")
        .el("h2", help.marks)
        .list("ul", &[help.marks_kept, help.marks_length])
        .close("section");
    html.open("section")
        .el("h2", help.areas)
        .list(
            "ol",
            &[
                help.area_surface,
                help.area_out,
                help.area_straight,
                help.area_part,
                help.area_level,
                help.area_pad,
            ],
        )
        .open("div class=\"help__wide\"")
        .markup(&example(words))
        .close("div")
        .el("p class=\"fine\"", help.area_example)
        .close("section");
    html.open("section class=\"help__not\"")
        .el("h2", help.not)
        .list("ul", &[help.not_depth, help.not_u, help.not_light])
        .close("section");
}

/// A drawn example of shades in three humps.
fn example(words: &Words) -> String {
    let mut count = ShadeCount {
        pixels: Histogram::default(),
        area: [0.0; 256],
    };
    for (shade, area) in count.area.iter_mut().enumerate() {
        let hump = |(middle, spread, area): (f64, f64, f64)| {
            let far = (shade as f64 - middle) / spread;
            area / spread * (1.0 - far * far / 4.0).max(0.0)
        };
        *area = HUMPS.into_iter().map(hump).sum();
    }
    shades(words, &count, &CUTS)
}

//! Drawn pictures: comparison swatches, level chips, the unrolled land, the interval bar, the profile.
//!
//! Each is a whole SVG element as text. Colours come by class, from [`css`], so that light and dark
//! both work and a page without inline styles shows them; sizes come from the page. A picture either
//! has a label, which is then read out, or is hidden from a screen reader because a word stands
//! beside it.
//!
//! The swatches are the project's own drawings, made by rule: nothing is taken from a rating manual.

mod area;
mod bar;
mod field;
mod level;
mod profile;
mod surface;

pub use area::{AREA_PERCENTS, Patches, area};
pub use bar::interval_bar;
pub use level::{CLEAN_CLASS, defs, land, level_chip, level_class};
pub use profile::spark_profile;
pub use surface::{Surface, grade, grade_on};

/// The style rules of every picture here, for light and dark by the page's `color-scheme`.
pub fn css() -> String {
    [
        surface::CSS,
        area::CSS,
        bar::CSS,
        profile::CSS,
        &level::css(),
    ]
    .concat()
}

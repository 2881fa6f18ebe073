//! The style sheet of the ramp and the pictures, as the app ships it.

use std::{env, fs, path::Path};

/// `PICTURES=write cargo test -p ringland-report --test style` writes it anew.
#[test]
fn the_apps_sheet_is_what_the_pictures_need() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../app/style/pictures.css");
    let sheet = [
        "/* The wear ramp, the drawn pictures and the plots: written by ringland-report, not by hand. */\n",
        &ringland_report::css(),
    ]
    .concat();
    if env::var_os("PICTURES").is_some() {
        fs::write(&path, &sheet).unwrap();
    }
    assert!(
        fs::read_to_string(&path).unwrap_or_default() == sheet,
        "app/style/pictures.css is behind: PICTURES=write cargo test -p ringland-report --test style"
    );
}

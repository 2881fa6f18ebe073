//! Names of files.

/// A file name from an engine's name: letters, digits and dashes, so that it survives any disk.
pub fn file_name(name: &str, fallback: &str, ending: &str) -> String {
    let plain: String = name
        .chars()
        .map(|c| if c.is_alphanumeric() { c } else { '-' })
        .collect::<String>()
        .split('-')
        .filter(|word| !word.is_empty())
        .collect::<Vec<_>>()
        .join("-");
    let stem = if plain.is_empty() { fallback } else { &plain };
    format!("{stem}{ending}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_letters_figures_and_dashes_are_left() {
        for (name, file) in [
            ("Tarn 21", "Tarn-21.x"),
            ("Tarn 14 / A:B", "Tarn-14-A-B.x"),
            ("../../etc/passwd", "etc-passwd.x"),
            (" — ", "engine.x"),
            ("Ñandú №5\u{202e}", "Ñandú-5.x"),
        ] {
            assert_eq!(file_name(name, "engine", ".x"), file);
        }
    }
}

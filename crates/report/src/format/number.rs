//! Numbers as a language writes them.

/// A space where no line breaks: between a figure and its unit.
pub const NBSP: &str = "\u{a0}";
/// The true minus sign.
const MINUS: char = '\u{2212}';
/// What stands where there is no number.
const NO_NUMBER: &str = "–";

/// How a language writes numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Numbers {
    /// Between the whole and the parts.
    pub decimal: char,
    /// Between groups of three digits.
    pub group: char,
    /// From how many digits on a whole number is grouped.
    pub group_from: usize,
}

impl Numbers {
    /// As English writes them: `14,930.5`.
    pub const ENGLISH: Self = Self {
        decimal: '.',
        group: ',',
        group_from: 4,
    };

    /// As Spanish writes them: `14 930,5`, `4930,5`. Groups of three are parted by a narrow space that
    /// does not break (ISO 80000-1, 7.3), and four digits stand together (RAE and ASALE, *Ortografía de
    /// la lengua española*, 2010, chapter VIII). Of the two decimal signs that both allow, the comma.
    pub const SPANISH: Self = Self {
        decimal: ',',
        group: '\u{202f}',
        group_from: 5,
    };

    /// A number with so many decimals: rounded to nearest, a true minus sign, groups of three.
    ///
    /// What is not a number becomes a dash.
    pub fn fixed(self, value: f64, decimals: usize) -> String {
        if !value.is_finite() {
            return NO_NUMBER.to_owned();
        }
        let digits = format!("{:.decimals$}", value.abs());
        let (whole, parts) = match digits.split_once('.') {
            Some((whole, parts)) => (whole, Some(parts)),
            None => (digits.as_str(), None),
        };
        let mut text = String::with_capacity(digits.len() + 4);
        if value < 0.0 && digits.bytes().any(|digit| (b'1'..=b'9').contains(&digit)) {
            text.push(MINUS);
        }
        self.push_whole(&mut text, whole);
        if let Some(parts) = parts {
            text.push(self.decimal);
            text.push_str(parts);
        }
        text
    }

    fn push_whole(self, text: &mut String, digits: &str) {
        let grouped = digits.len() >= self.group_from;
        for (place, digit) in digits.chars().enumerate() {
            if grouped && place > 0 && (digits.len() - place).is_multiple_of(3) {
                text.push(self.group);
            }
            text.push(digit);
        }
    }

    /// A number with as many decimals as it needs, at most so many: `12.5`, `12`.
    pub fn short(self, value: f64, most_decimals: usize) -> String {
        let text = self.fixed(value, most_decimals);
        match text.rsplit_once(self.decimal) {
            Some((whole, parts)) => match parts.trim_end_matches('0') {
                "" => whole.to_owned(),
                parts => format!("{whole}{}{parts}", self.decimal),
            },
            None => text,
        }
    }

    /// A number with so many significant digits: `0.0042`, `1.318`; zeros at the end of a whole number
    /// stand for themselves.
    pub fn digits(self, value: f64, digits: usize) -> String {
        if value == 0.0 || !value.is_finite() {
            return self.fixed(value, 0);
        }
        // The place of the first digit once it is rounded: 9.99 to two digits is 10.
        let text = format!("{:.*e}", digits.saturating_sub(1), value.abs());
        let place: i32 = text
            .split_once('e')
            .and_then(|(_, place)| place.parse().ok())
            .unwrap_or(0);
        let after = i32::try_from(digits).unwrap_or(0) - 1 - place;
        self.fixed(value, usize::try_from(after).unwrap_or(0))
    }

    /// A number for an input field: no groups, an ordinary minus, as few decimals as it needs.
    pub fn plain(self, value: f64) -> String {
        let text = Self {
            group_from: usize::MAX,
            ..self
        }
        .short(value, 6);
        text.replace(MINUS, "-")
    }

    /// A score or a merit: one decimal.
    pub fn score(self, score: f64) -> String {
        self.fixed(score, 1)
    }

    /// A demerit or another figure of the trade: one decimal.
    pub fn figure(self, value: f64) -> String {
        self.fixed(value, 1)
    }

    /// A standard uncertainty, or a spread of scores: two decimals.
    pub fn u(self, u: f64) -> String {
        self.fixed(u, 2)
    }

    /// An expanded uncertainty or half an interval: `± 0.4`.
    pub fn plus_minus(self, half: f64) -> String {
        format!("±{NBSP}{}", self.fixed(half, 1))
    }

    /// A difference: its sign always stands, `+0.3`; nothing is `0.0`.
    pub fn signed(self, value: f64, decimals: usize) -> String {
        let text = self.fixed(value, decimals);
        let nothing = !text.bytes().any(|digit| (b'1'..=b'9').contains(&digit));
        if value > 0.0 && !nothing {
            format!("+{text}")
        } else {
            text
        }
    }

    /// A percentage, 0 to 100, with a decimal only where it says something: `28 %`, `2.8 %`.
    pub fn percent(self, percent: f64) -> String {
        format!("{}{NBSP}%", self.short(percent, 1))
    }

    /// A share, 0 to 1, as a percentage without decimals. What is not quite everything never reads
    /// `100 %`, and what is not quite nothing never reads `0 %`.
    pub fn share(self, share: f64) -> String {
        let percent = share * 100.0;
        let whole = if percent > 99.0 && percent < 100.0 {
            99.0
        } else if percent > 0.0 && percent < 1.0 {
            1.0
        } else {
            percent
        };
        format!("{}{NBSP}%", self.fixed(whole, 0))
    }

    /// A count.
    pub fn count(self, count: usize) -> String {
        let mut text = String::new();
        self.push_whole(&mut text, &count.to_string());
        text
    }

    /// A weight or a factor of the plan: as many decimals as it has, up to four.
    pub fn weight(self, weight: f64) -> String {
        self.short(weight, 4)
    }

    /// A number of bytes in a unit that reads well: `4.2 MB`.
    pub fn bytes(self, bytes: u64) -> String {
        const UNITS: [&str; 4] = ["kB", "MB", "GB", "TB"];
        if bytes < 1000 {
            return format!("{bytes}{NBSP}B");
        }
        let mut value = bytes as f64 / 1000.0;
        let mut unit = 0;
        while value >= 999.5 && unit + 1 < UNITS.len() {
            value /= 1000.0;
            unit += 1;
        }
        let decimals = usize::from(value < 9.95);
        format!("{}{NBSP}{}", self.fixed(value, decimals), UNITS[unit])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const EN: Numbers = Numbers::ENGLISH;
    const ES: Numbers = Numbers::SPANISH;

    #[test]
    fn numbers_read_well() {
        assert_eq!(EN.score(7.297_222), "7.3");
        assert_eq!(EN.score(10.0), "10.0");
        assert_eq!(EN.u(0.274_270), "0.27");
        assert_eq!(EN.fixed(812_400.0, 0), "812,400");
        assert_eq!(EN.fixed(1_234_567.891, 2), "1,234,567.89");
        assert_eq!(EN.fixed(999.0, 0), "999");
        assert_eq!(EN.fixed(-0.04, 1), "0.0");
        assert_eq!(EN.fixed(-1234.5, 1), "\u{2212}1,234.5");
        assert_eq!(EN.fixed(f64::NAN, 1), "–");
        assert_eq!(EN.count(14_930), "14,930");
        assert_eq!(EN.signed(0.25, 1), "+0.2");
        assert_eq!(EN.signed(0.0, 1), "0.0");
        assert_eq!(EN.signed(-3.0, 0), "\u{2212}3");
        assert_eq!(EN.plus_minus(0.4), "±\u{a0}0.4");
        assert_eq!(EN.short(0.5, 4), "0.5");
        assert_eq!(EN.short(100.0, 1), "100");
        assert_eq!(EN.plain(1234.5), "1234.5");
        assert_eq!(EN.plain(-2.0), "-2");
    }

    #[test]
    fn a_language_has_its_own_signs() {
        assert_eq!(ES.fixed(14_930.5, 1), "14\u{202f}930,5");
        assert_eq!(ES.fixed(1930.5, 1), "1930,5");
        assert_eq!(ES.short(12.5, 3), "12,5");
    }

    #[test]
    fn a_share_does_not_claim_too_much() {
        assert_eq!(EN.share(0.9996), "99\u{a0}%");
        assert_eq!(EN.share(1.0), "100\u{a0}%");
        assert_eq!(EN.share(0.001), "1\u{a0}%");
        assert_eq!(EN.share(0.0), "0\u{a0}%");
        assert_eq!(EN.share(0.703_704), "70\u{a0}%");
        assert_eq!(EN.percent(27.777_777), "27.8\u{a0}%");
        assert_eq!(EN.percent(50.0), "50\u{a0}%");
    }

    #[test]
    fn bytes_read_well() {
        assert_eq!(EN.bytes(512), "512\u{a0}B");
        assert_eq!(EN.bytes(4_210_000), "4.2\u{a0}MB");
        assert_eq!(EN.bytes(999_800), "1.0\u{a0}MB");
        assert_eq!(EN.bytes(9_970_000_000), "10\u{a0}GB");
    }
}

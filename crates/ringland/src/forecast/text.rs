//! What tables of readings say, as text for a terminal.

use ringland_assess::gauging::{
    forecast::{Curves, Forecast, LastReading, Pooled, Question, UnitForecast},
    remaining::Remaining,
};
use ringland_report::words::{Language, words};
use ringland_stats::{
    StatsError,
    confidence::{Confidence, Interval},
    regression::{Choice, Curve, UnitsFit, Why},
};

/// Each unit, then all together.
pub(crate) fn print(forecast: &Forecast, question: &Question) -> Result<String, StatsError> {
    let mut lines = Vec::new();
    for unit in &forecast.units {
        unit_of(unit, question, &mut lines)?;
        lines.push(String::new());
    }
    if let Some(pooled) = &forecast.pooled {
        pooled_of(pooled, question, &mut lines)?;
        lines.push(String::new());
    }
    lines.push(format!(
        "Intervals at {} %. Every curve takes the scatter of the readings as normal and of one size.",
        figure(question.confidence.share() * 100.0)
    ));
    if question.limit.is_some() {
        // What was left is never said without it.
        lines.push(words(Language::English).help_score.not_reuse.to_owned() + ".");
    }
    Ok(lines.join("\n"))
}

fn unit_of(
    unit: &UnitForecast,
    question: &Question,
    lines: &mut Vec<String>,
) -> Result<(), StatsError> {
    lines.push(format!(
        "{}: {}, the furthest at {}",
        unit.name,
        readings(unit.curves.readings),
        figure(unit.last_distance)
    ));
    curves(&unit.curves, question.confidence, lines)?;
    if let Some(left) = &unit.remaining {
        lines.push(format!("  left           {}", remaining(left)));
    }
    if let Some(last) = unit.last_reading.as_ref().filter(|last| !last.agrees()) {
        lines.push(format!("  mind           {}", disagrees(last)));
    }
    Ok(())
}

fn pooled_of(
    pooled: &Pooled,
    question: &Question,
    lines: &mut Vec<String>,
) -> Result<(), StatsError> {
    lines.push(format!(
        "all units: {}, as if of one unit",
        readings(pooled.curves.readings)
    ));
    curves(&pooled.curves, question.confidence, lines)?;
    if let Some(left) = &pooled.remaining {
        lines.push(format!("  whole run      {}", remaining(left)));
    }
    slopes(&pooled.units, question.confidence, lines)
}

fn curves(
    curves: &Curves,
    confidence: Confidence,
    lines: &mut Vec<String>,
) -> Result<(), StatsError> {
    lines.push(match &curves.line {
        Ok(line) => format!(
            "  line           {} + {}·x, slope {}, scatter {}",
            figure(line.intercept),
            figure(line.slope),
            ends(line.slope_interval(confidence)?),
            figure(line.residual_sd)
        ),
        Err(why) => format!("  line           none: {why}"),
    });
    lines.push(match &curves.power_law {
        Ok(power) => format!(
            "  power law      {}·x^{}, exponent {}, scatter {}",
            figure(power.factor),
            figure(power.exponent),
            ends(power.exponent_interval(confidence)?),
            figure(power.residual_sd)
        ),
        Err(why) => format!("  power law      none: {why}"),
    });
    if let Some(choice) = &curves.choice {
        lines.push(format!("  taken          {}", chosen(choice)));
    }
    Ok(())
}

fn chosen(choice: &Choice) -> String {
    let curve = match choice.curve {
        Curve::Line => "the line",
        Curve::PowerLaw => "the power law",
    };
    let why = match &choice.why {
        Why::Better { by } => format!("its AICc is lower by {}", figure(*by)),
        Why::AsGoodAndSimpler { apart } => format!(
            "the two AICc are {} apart, too close to tell, and the line is simpler",
            figure(apart.abs())
        ),
        Why::TooFewToTell { got, least } => {
            format!(
                "{got} readings cannot tell the two apart, it takes {least}; the line is simpler"
            )
        }
        Why::NoPowerLaw(why) => format!("there is no power law: {why}"),
    };
    format!("{curve}: {why}")
}

fn remaining(remaining: &Remaining) -> String {
    match *remaining {
        Remaining::AlreadyBeyond { probability } => {
            format!("nothing: past the limit already (probability {probability:.2})")
        }
        Remaining::Between {
            estimate,
            low,
            high,
        } => format!("{}, {} to {}", figure(estimate), figure(low), figure(high)),
        Remaining::AtLeast { low } => format!(
            "at least {}: wear is not distinguishable from none",
            figure(low)
        ),
        Remaining::NotReached => "no end: nothing here leads to the limit".to_owned(),
    }
}

fn disagrees(last: &LastReading) -> String {
    format!(
        "the fit disagrees with its own last reading: {} at {}, where the others foretell {}, {}",
        figure(last.wear),
        figure(last.distance),
        figure(last.expected),
        ends(last.interval)
    )
}

fn slopes(
    units: &UnitsFit,
    confidence: Confidence,
    lines: &mut Vec<String>,
) -> Result<(), StatsError> {
    if let Some(common) = &units.common {
        lines.push(format!(
            "  common slope   {}, {}",
            figure(common.value),
            ends(common.interval(confidence)?)
        ));
    }
    if let Some(p) = units.p_one_slope {
        lines.push(format!(
            "  one slope?     slopes so far apart come by chance with a probability of {}",
            figure(p)
        ));
    }
    if units.differ(confidence) == Some(true) {
        lines.push(
            "  mind           the units' slopes differ: curves through all readings speak for no single one"
                .to_owned(),
        );
    }
    if let Some(between) = &units.between {
        let next = match between.next_unit(confidence)? {
            Some(interval) => format!("; one more unit {}", ends(interval)),
            None => String::new(),
        };
        lines.push(format!(
            "  between units  mean slope {}, {}; scatter of slopes {}{next}",
            figure(between.mean.value),
            ends(between.mean.interval(confidence)?),
            figure(between.sd)
        ));
    }
    Ok(())
}

fn readings(n: usize) -> String {
    let word = if n == 1 { "reading" } else { "readings" };
    format!("{n} {word}")
}

fn ends(interval: Interval) -> String {
    format!("{} to {}", figure(interval.low), figure(interval.high))
}

/// Five significant digits.
fn figure(value: f64) -> String {
    /// Where a number has five digits before its point.
    const WHOLE: f64 = 1e4;
    if value == 0.0 {
        return "0".to_owned();
    }
    let size = value.abs();
    if !(1e-5..1e9).contains(&size) {
        return format!("{value:.4e}");
    }
    let (mut shifted, mut decimals) = (size, 0);
    while shifted < WHOLE {
        (shifted, decimals) = (shifted * 10.0, decimals + 1);
    }
    let text = format!("{value:.decimals$}");
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_have_five_digits() {
        for (value, text) in [
            (0.0, "0"),
            (0.045, "0.045"),
            (1.234_567, "1.2346"),
            (-123_456.7, "-123457"),
            (0.000_123_456, "0.00012346"),
            (3.2e-9, "3.2000e-9"),
        ] {
            assert_eq!(figure(value), text);
        }
    }
}

//! `ringland forecast`: wear over distance from plain tables.

mod json;
mod table;
mod text;

use std::{fs, path::PathBuf};

use clap::Args;
use ringland_assess::gauging::forecast::{Forecast, Question, Unit, forecast};
use ringland_stats::{confidence::Confidence, regression::Intercept};

/// What the command is given.
#[derive(Debug, Args)]
pub(crate) struct Asked {
    /// Tables with the columns `unit,distance,wear`: a reading a line. A unit may go on in the next table.
    #[arg(required = true, value_name = "FILE")]
    files: Vec<PathBuf>,
    /// The wear limit, in the unit of the wear: say how much further each unit could have run.
    #[arg(long, value_name = "X", allow_negative_numbers = true, value_parser = finite)]
    limit: Option<f64>,
    /// Wear starts at nothing: lines go through distance 0, wear 0.
    #[arg(long)]
    through_zero: bool,
    /// Of every interval, in percent.
    #[arg(long, value_name = "PERCENT", default_value = "95", value_parser = percent)]
    confidence: Confidence,
    /// Print everything as JSON.
    #[arg(long)]
    json: bool,
}

/// The text to print.
pub(crate) fn run(asked: &Asked) -> Result<String, String> {
    let mut units: Vec<Unit> = Vec::new();
    for path in &asked.files {
        let bytes = fs::read(path).map_err(|why| super::at(path)(&why))?;
        table::read(&bytes, &mut units).map_err(|why| super::at(path)(&why))?;
    }
    let question = Question {
        intercept: if asked.through_zero {
            Intercept::Zero
        } else {
            Intercept::Free
        },
        confidence: asked.confidence,
        limit: asked.limit,
    };
    let forecast: Forecast =
        forecast(&units, &question).map_err(|why| format!("these readings: {why}"))?;
    let print = if asked.json { json::print } else { text::print };
    print(&forecast, &question).map_err(|why| format!("these readings: {why}"))
}

fn finite(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(number) if number.is_finite() => Ok(number),
        _ => Err("a number is needed".to_owned()),
    }
}

fn percent(text: &str) -> Result<Confidence, String> {
    text.parse::<f64>()
        .ok()
        .and_then(|percent| Confidence::new(percent / 100.0).ok())
        .filter(|confidence| confidence.share() >= 0.5)
        .ok_or_else(|| "a number from 50 to below 100 is needed".to_owned())
}

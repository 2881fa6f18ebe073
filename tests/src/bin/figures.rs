//! Works out figures for which the command has no words, so that the reference in Python can hold them
//! against its own: a question a line as JSON, an answer a line as JSON.

use std::{
    error::Error,
    io::{self, BufRead, Write},
    process::ExitCode,
};

use ringland_assess::gauging::{
    AsNew, BreakIn, Exposure, Measured, Position, Race, Range, Remaining, remaining::remaining,
};
use ringland_stats::{
    confidence::{Confidence, Dof},
    conformity::{Tolerance, Verdict, conformity},
    distribution::{f_above, normal_cdf, normal_quantile, t_cdf, t_quantile},
    gauge_study::{GaugeStudy, analysis_of_variance},
    monte_carlo::{Input, MonteCarlo, Source, summarise},
    regression::{Possible, fit_polynomial},
    uncertainty::{Component, Correlation, Standard, combine},
};
use serde_json::{Value, json};
use uom::si::{f64::Length, length::meter};

type Answer = Result<Value, Box<dyn Error>>;

fn main() -> ExitCode {
    let mut out = io::stdout().lock();
    for line in io::stdin().lock().lines() {
        let answer = line
            .map_err(Into::into)
            .and_then(|line| answer(&serde_json::from_str(&line)?))
            .unwrap_or_else(|why| json!({ "error": why.to_string() }));
        if writeln!(out, "{answer}").is_err() {
            return ExitCode::FAILURE;
        }
    }
    ExitCode::SUCCESS
}

fn answer(asked: &Value) -> Answer {
    match asked["kind"].as_str() {
        Some("distribution") => distribution(asked),
        Some("polynomial") => polynomial(asked),
        Some("gauge_study") => gauge_study(asked),
        Some("budget") => budget(asked),
        Some("monte_carlo") => monte_carlo(asked),
        Some("conformity") => conforms(asked),
        Some("remaining") => left(asked),
        Some("first") => first(asked),
        _ => Err("no such kind of question".into()),
    }
}

fn distribution(asked: &Value) -> Answer {
    let (x, p) = (number(&asked["x"])?, number(&asked["p"])?);
    let dof = dof(&asked["dof"])?;
    let upper = Dof::new(number(&asked["upper"])?)?;
    Ok(json!({
        "normal_cdf": normal_cdf(x),
        "normal_quantile": normal_quantile(p)?,
        "t_cdf": t_cdf(x, dof),
        "t_quantile": t_quantile(p, dof)?,
        "f_above": f_above(x.abs(), upper, Dof::new(number(&asked["lower"])?)?)?,
    }))
}

fn polynomial(asked: &Value) -> Answer {
    let degree = asked["degree"].as_u64().ok_or("no degree")?;
    let fit = fit_polynomial(
        &numbers(&asked["x"])?,
        &numbers(&asked["y"])?,
        usize::try_from(degree)?,
    )?;
    Ok(json!({
        "values": fit.coefficients.iter().map(|c| c.value).collect::<Vec<_>>(),
        "ses": fit.coefficients.iter().map(|c| c.se).collect::<Vec<_>>(),
        "residual_sd": fit.residual_sd,
        "r_squared": fit.r_squared,
    }))
}

fn gauge_study(asked: &Value) -> Answer {
    let mut readings = Vec::new();
    for appraiser in list(&asked["readings"])? {
        let parts = list(appraiser)?.iter().map(numbers);
        readings.push(parts.collect::<Result<Vec<_>, _>>()?);
    }
    let found = analysis_of_variance(&GaugeStudy::new(readings)?)?;
    let squares = [
        found.appraisers,
        found.parts,
        found.interaction,
        found.equipment,
    ];
    Ok(json!({
        "sums": squares.map(|squares| squares.sum),
        "dofs": squares.map(|squares| squares.dof),
        "f": found.f,
        "p": found.p,
        "pooled": found.is_pooled(),
        "equipment": found.variation.equipment,
        "appraisers": found.variation.appraisers,
        "parts": found.variation.parts,
    }))
}

fn budget(asked: &Value) -> Answer {
    let mut components = Vec::new();
    for row in list(&asked["components"])? {
        components.push(Component {
            label: (),
            standard: Standard {
                u: number(&row["u"])?,
                dof: dof(&row["dof"])?,
            },
            sensitivity: number(&row["c"])?,
        });
    }
    let mut correlations = Vec::new();
    for row in list(&asked["correlations"])? {
        let place = |n: usize| row[n].as_u64().ok_or("no place");
        correlations.push(Correlation {
            one: usize::try_from(place(0)?)?,
            other: usize::try_from(place(1)?)?,
            r: number(&row[2])?,
        });
    }
    let budget = combine(components, &correlations)?;
    let expanded = budget.expanded(confidence(asked)?)?;
    Ok(json!({
        "u": budget.u,
        "dof": budget.dof.map(Dof::get).filter(|dof| dof.is_finite()),
        "has_dof": budget.dof.is_some(),
        "shares": budget.rows.iter().map(|row| row.share).collect::<Vec<_>>(),
        "factor": expanded.map(|e| e.factor),
        "expanded": expanded.map(|e| e.uncertainty),
    }))
}

/// Three inputs into one of a few models.
fn monte_carlo(asked: &Value) -> Answer {
    let inputs = list(&asked["inputs"])?;
    let [a, b, c] = inputs else {
        return Err("three inputs are needed".into());
    };
    let model: fn([f64; 3]) -> f64 = match asked["model"].as_str() {
        Some("sum") => |[a, b, c]| a + b + c,
        Some("product") => |[a, b, c]| a * b + c,
        Some("ratio") => |[a, b, c]| a / (b * b + 1.0) + c,
        _ => return Err("no such model".into()),
    };
    let draws = usize::try_from(asked["draws"].as_u64().ok_or("no draws")?)?;
    let source = Source::seeded(asked["seed"].as_u64().ok_or("no seed")?);
    let mut drawing = MonteCarlo::new([input(a)?, input(b)?, input(c)?], draws, source)?;
    while !drawing.go_on(10_000, |_, inputs| model(inputs)).is_whole() {}
    let summary = summarise(&mut drawing.outputs(), confidence(asked)?)?;
    Ok(json!({
        "mean": summary.mean,
        "u": summary.u,
        "symmetric": [summary.symmetric.low, summary.symmetric.high],
        "shortest": [summary.shortest.low, summary.shortest.high],
    }))
}

fn conforms(asked: &Value) -> Answer {
    let limit = |name: &str| asked[name].as_f64();
    let tolerance = match (limit("low"), limit("high")) {
        (Some(low), Some(high)) => Tolerance::Between { low, high },
        (Some(low), None) => Tolerance::AtLeast(low),
        (None, Some(high)) => Tolerance::AtMost(high),
        (None, None) => return Err("no limit".into()),
    };
    let standard = Standard {
        u: number(&asked["u"])?,
        dof: dof(&asked["dof"])?,
    };
    let said = conformity(
        number(&asked["y"])?,
        standard,
        tolerance,
        confidence(asked)?,
    )?;
    Ok(json!({
        "probability": said.probability,
        "sufficient_u": said.sufficient_u,
        "verdict": match said.verdict {
            Verdict::Within => "within",
            Verdict::Beyond => "beyond",
            Verdict::CannotSay => "cannot_say",
        },
    }))
}

fn left(asked: &Value) -> Answer {
    let draws = usize::try_from(asked["draws"].as_u64().ok_or("no draws")?)?;
    let checked = remaining(&position(asked)?, confidence(asked)?, 1, draws)?;
    Ok(json!({
        "remaining": remaining_of(&checked.remaining),
        "fieller": match checked.fieller {
            Possible::Between { low, high } => json!([low, high]),
            _ => Value::Null,
        },
    }))
}

fn first(asked: &Value) -> Answer {
    let draws = usize::try_from(asked["draws"].as_u64().ok_or("no draws")?)?;
    let positions = list(&asked["positions"])?
        .iter()
        .map(position)
        .collect::<Result<Vec<_>, _>>()?;
    let calibration = metres(&asked["calibration"])?;
    let mut race = Race::new(&positions, calibration, confidence(asked)?, 1, draws)?;
    while !race.go_on(1)?.is_whole() {}
    let said = race.finish()?;
    let mut probabilities = vec![0.0; positions.len()];
    for likely in &said.likely {
        probabilities[likely.position] = likely.probability;
    }
    Ok(json!({ "engine": remaining_of(&said.engine), "probabilities": probabilities }))
}

fn remaining_of(remaining: &Remaining) -> Value {
    match *remaining {
        Remaining::AlreadyBeyond { probability } => json!({ "already_beyond": probability }),
        Remaining::Between {
            estimate,
            low,
            high,
        } => json!({ "between": [low, estimate, high] }),
        Remaining::AtLeast { low } => json!({ "at_least": low }),
        Remaining::NotReached => json!("not_reached"),
    }
}

fn position(asked: &Value) -> Result<Position, Box<dyn Error>> {
    let measured = |row: &Value| -> Result<Measured, Box<dyn Error>> {
        Ok(Measured::known(metres(&row[0])?, metres(&row[1])?))
    };
    let range = &asked["as_new_range"];
    Ok(Position {
        size: measured(&asked["size"])?,
        as_new: if range.is_null() {
            AsNew::Known(measured(&asked["as_new"])?)
        } else {
            AsNew::Range(Range {
                low: metres(&range[0])?,
                high: metres(&range[1])?,
            })
        },
        limit: metres(&asked["limit"])?,
        run: Exposure::distance(metres(&asked["run"])?),
        break_in: if asked["break_in"].is_null() {
            None
        } else {
            Some(BreakIn {
                until: Exposure::distance(metres(&asked["until"])?),
                wear: measured(&asked["break_in"])?,
            })
        },
    })
}

fn input(row: &Value) -> Result<Input, Box<dyn Error>> {
    let (a, b) = (number(&row[1])?, number(&row[2])?);
    Ok(match row[0].as_str() {
        Some("normal") => Input::Normal { mean: a, sd: b },
        Some("rectangular") => Input::Rectangular { low: a, high: b },
        Some("t") => Input::StudentT {
            mean: a,
            scale: b,
            dof: Dof::new(number(&row[3])?)?,
        },
        _ => return Err("no such distribution".into()),
    })
}

fn metres(value: &Value) -> Result<Length, Box<dyn Error>> {
    Ok(Length::new::<meter>(number(value)?))
}

fn confidence(asked: &Value) -> Result<Confidence, Box<dyn Error>> {
    Ok(Confidence::new(number(&asked["confidence"])?)?)
}

/// Infinite where none is given.
fn dof(value: &Value) -> Result<Dof, Box<dyn Error>> {
    if value.is_null() {
        return Ok(Dof::INFINITE);
    }
    Ok(Dof::new(number(value)?)?)
}

fn number(value: &Value) -> Result<f64, Box<dyn Error>> {
    value
        .as_f64()
        .ok_or_else(|| format!("{value} is no number").into())
}

fn numbers(value: &Value) -> Result<Vec<f64>, Box<dyn Error>> {
    list(value)?.iter().map(number).collect()
}

fn list(value: &Value) -> Result<&[Value], Box<dyn Error>> {
    Ok(value.as_array().ok_or("a list is needed")?.as_slice())
}

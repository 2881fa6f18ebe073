//! Everything that is worked out of tables of readings, as JSON.

use ringland_assess::gauging::{
    forecast::{Curves, Forecast, LastReading, Pooled, Question, UnitForecast},
    remaining::Remaining,
};
use ringland_stats::{
    StatsError,
    confidence::{Confidence, Interval},
    distribution::t_quantile,
    regression::{
        Between, Choice, Curve, Intercept, LineFit, Possible, PowerFit, Slope, UnitsFit, Weighting,
        Why,
    },
};
use serde_json::{Value, json};

/// The whole forecast.
pub(crate) fn print(forecast: &Forecast, question: &Question) -> Result<String, StatsError> {
    let units = forecast
        .units
        .iter()
        .map(|unit| unit_of(unit, question))
        .collect::<Result<Vec<_>, _>>()?;
    let pooled = forecast
        .pooled
        .as_ref()
        .map(|pooled| pooled_of(pooled, question))
        .transpose()?;
    Ok(crate::pretty(&json!({
        "confidence": question.confidence.share(),
        "intercept": match question.intercept { Intercept::Free => "free", Intercept::Zero => "zero" },
        "limit": question.limit,
        "units": units,
        "pooled": pooled,
    })))
}

fn unit_of(unit: &UnitForecast, question: &Question) -> Result<Value, StatsError> {
    let mut value = curves(&unit.curves, unit.last_distance, question)?;
    value["unit"] = json!(unit.name);
    value["last_distance"] = json!(unit.last_distance);
    value["remaining"] = json!(unit.remaining.as_ref().map(remaining));
    value["last_reading"] = json!(unit.last_reading.as_ref().map(last_reading));
    Ok(value)
}

fn pooled_of(pooled: &Pooled, question: &Question) -> Result<Value, StatsError> {
    let mut value = curves(&pooled.curves, 0.0, question)?;
    value["remaining"] = json!(pooled.remaining.as_ref().map(remaining));
    value["slopes"] = slopes(&pooled.units, question.confidence)?;
    Ok(value)
}

fn curves(curves: &Curves, at: f64, question: &Question) -> Result<Value, StatsError> {
    let line = match &curves.line {
        Ok(line) => line_of(line, at, question)?,
        Err(why) => json!({ "error": why.to_string() }),
    };
    let power_law = match &curves.power_law {
        Ok(power) => power_of(power, at, question)?,
        Err(why) => json!({ "error": why.to_string() }),
    };
    Ok(json!({
        "readings": curves.readings,
        "line": line,
        "power_law": power_law,
        "choice": curves.choice.as_ref().map(choice),
    }))
}

fn line_of(line: &LineFit, at: f64, question: &Question) -> Result<Value, StatsError> {
    let confidence = question.confidence;
    let mut value = json!({
        "intercept": line.intercept,
        "se_intercept": line.se_intercept,
        "slope": line.slope,
        "se_slope": line.se_slope,
        "slope_interval": ends(line.slope_interval(confidence)?),
        "covariance": line.covariance,
        "residual_sd": line.residual_sd,
        "dof": line.dof.get(),
        "r_squared": line.r_squared,
        "at": at_distance(at, line.at(at), line.band(at, confidence)?, line.prediction(at, confidence)?),
    });
    if let Some(limit) = question.limit {
        let factor = t_quantile(f64::midpoint(1.0, confidence.share()), line.dof)?;
        value["reaches_limit"] = json!({
            "at": line.reaches(limit),
            "possible": possible(line.may_reach(limit, factor)?),
        });
    }
    Ok(value)
}

fn power_of(power: &PowerFit, at: f64, question: &Question) -> Result<Value, StatsError> {
    let confidence = question.confidence;
    let mut value = json!({
        "factor": power.factor,
        "se_factor": power.se_factor,
        "exponent": power.exponent,
        "se_exponent": power.se_exponent,
        "exponent_interval": ends(power.exponent_interval(confidence)?),
        "residual_sd": power.residual_sd,
        "dof": power.dof.get(),
        "at": at_distance(at, power.at(at), power.band(at, confidence)?, power.prediction(at, confidence)?),
    });
    if let Some(limit) = question.limit {
        let factor = t_quantile(f64::midpoint(1.0, confidence.share()), power.dof)?;
        // An exponent that is hardly known may put the end past every number: then there is none to give.
        let interval = power.may_reach(limit, factor).ok().flatten();
        value["reaches_limit"] = json!({
            "at": power.reaches(limit),
            "possible": interval.map(ends),
        });
    }
    Ok(value)
}

fn at_distance(distance: f64, value: f64, band: Interval, prediction: Interval) -> Value {
    json!({
        "distance": distance,
        "wear": value,
        "band": ends(band),
        "prediction": ends(prediction),
    })
}

fn choice(choice: &Choice) -> Value {
    let mut value = json!({
        "curve": curve(choice.curve),
        "aicc": choice.criteria.map(|both| json!({ "line": both.line, "power_law": both.power_law })),
    });
    value["why"] = match &choice.why {
        Why::Better { by } => json!({ "kind": "better", "by": by }),
        Why::AsGoodAndSimpler { apart } => json!({ "kind": "as_good_and_simpler", "apart": apart }),
        Why::TooFewToTell { got, least } => {
            json!({ "kind": "too_few_to_tell", "got": got, "least": least })
        }
        Why::NoPowerLaw(why) => json!({ "kind": "no_power_law", "because": why.to_string() }),
    };
    value
}

fn remaining(remaining: &Remaining) -> Value {
    match *remaining {
        Remaining::AlreadyBeyond { probability } => {
            json!({ "kind": "already_beyond", "probability": probability })
        }
        Remaining::Between {
            estimate,
            low,
            high,
        } => json!({ "kind": "between", "estimate": estimate, "low": low, "high": high }),
        Remaining::AtLeast { low } => json!({ "kind": "at_least", "low": low }),
        Remaining::NotReached => json!({ "kind": "not_reached" }),
    }
}

fn possible(possible: Possible) -> Value {
    match possible {
        Possible::Between { low, high } => json!({ "kind": "between", "low": low, "high": high }),
        Possible::Outside { below, above } => {
            json!({ "kind": "outside", "below": below, "above": above })
        }
        Possible::From(low) => json!({ "kind": "from", "low": low }),
        Possible::UpTo(high) => json!({ "kind": "up_to", "high": high }),
        Possible::Everywhere => json!({ "kind": "everywhere" }),
        Possible::Nowhere => json!({ "kind": "nowhere" }),
    }
}

fn last_reading(last: &LastReading) -> Value {
    json!({
        "distance": last.distance,
        "wear": last.wear,
        "by": curve(last.curve),
        "expected": last.expected,
        "interval": ends(last.interval),
        "agrees": last.agrees(),
    })
}

fn slopes(units: &UnitsFit, confidence: Confidence) -> Result<Value, StatsError> {
    let common = units
        .common
        .as_ref()
        .map(|common| slope(common, confidence))
        .transpose()?;
    let between = units
        .between
        .as_ref()
        .map(|between| between_of(between, confidence))
        .transpose()?;
    Ok(json!({
        "own": units.slopes,
        "common": common,
        "p_one_slope": units.p_one_slope,
        "differ": units.differ(confidence),
        "between": between,
    }))
}

fn slope(slope: &Slope, confidence: Confidence) -> Result<Value, StatsError> {
    Ok(json!({
        "slope": slope.value,
        "se": slope.se,
        "dof": slope.dof.get(),
        "interval": ends(slope.interval(confidence)?),
    }))
}

fn between_of(between: &Between, confidence: Confidence) -> Result<Value, StatsError> {
    Ok(json!({
        "units": between.units,
        "sd": between.sd,
        "mean": slope(&between.mean, confidence)?,
        "weighting": match between.weighting {
            Weighting::Precision => "precision",
            Weighting::Equal => "equal",
        },
        "next_unit": between.next_unit(confidence)?.map(ends),
    }))
}

fn ends(interval: Interval) -> [f64; 2] {
    [interval.low, interval.high]
}

fn curve(curve: Curve) -> &'static str {
    match curve {
        Curve::Line => "line",
        Curve::PowerLaw => "power_law",
    }
}

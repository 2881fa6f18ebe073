//! Words of what was measured: on the Card, and in plots.

use super::catalogue::words;

words! {
    /// The Card's section on measured sizes, and the plots of them.
    Measured {
        title = "Measured";
        none_beyond = "None of them is beyond a limit";
        enough(u: &str) = "a standard uncertainty of {u} would be enough";
        never_enough = "it lies on the limit, so no gauge is fine enough";
        too_coarse = "Too coarse for the allowance";
        source(source: &str) = "Source: {source}";
        keeps = "keeps within";
        notes = "Notes";
        rows(part: &str) = "{part}: sizes, wear and verdicts by position. Press one to see what it is made of";
        open = "Readings and budget";
        readings = "Readings as typed";
        readings_new = "Readings as it went in";
        spot = "Spot";
        outlook_parts = "Every part";
        gauge_said(name: &str, step: &str, known: &str, calibrated: &str) = "{name}: steps of {step}, {known}, {calibrated}";
        gauge_no_u = "no calibration uncertainty";
        gauge_calibrated(when: &str) = "last calibrated {when}";
        gauge_never = "date of calibration not known";
        grid = "By height and axis, at 20 °C";
        share_of_u = "Share of u²";
        unit_of_contribution(unit: &str) = "Contribution, {unit}";
        effective = "Effective degrees of freedom";
        factor = "Coverage factor k";
        combined = "Combined standard uncertainty u";
        on_gauging = "Open on Gauging";
        until(limit: &str) = "until its limit: {limit}";
        outlook_engine = "The engine";
        outlook_rows(part: &str) = "{part}: what was left, the least first";
        outlook_stopped = "Stopped before it was worked out";
        outlook_again = "Work it out from the readings as they are now";
        outlook_needs = "How much further it could have run needs a distance, hours or fuel on the card, and new sizes and limits";
        plot_band = "where the next reading is to be expected";
        plot_new(range: &str) = "as new {range}";
        plot_limit(limit: &str) = "limit {limit}";
        plot_unit(name: &str, n: usize, wear: &str, at: &str) = "{name}, {n} {n?reading:readings}, {wear} after {at}";
        plot_expected(range: &str, at: &str) = "a reading after {at} is to be expected within {range}";
    }
}

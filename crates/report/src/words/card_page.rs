//! Words of the Card: the result, and how each of its numbers was made.

use super::catalogue::words;

words! {
    /// The result on one page.
    CardPage {
        title = "Card";
        engine = "Engine";
        nothing_yet = "Nothing has been rated yet";
        nothing_yet_hint = "The Card fills as the Bench does: the first look gives the first figure";
        rated_by(when: &str, n: usize) = "rated {when} by {n} {n?rater:raters}";
        score = "Score";
        score_line(low: &str, high: &str) = "Score, 0 to 10, {low} to {high} (95 %)";
        score_said(score: &str, low: &str, high: &str) = "Score {score}, with 95 % confidence from {low} to {high}";
        score_alone(score: &str) = "Score {score}";
        scale_hint = "10 is clean or as new, 0 the worst. The scale is the project's own; no standard fixes it";
        no_score = "No score: nothing here has been rated";
        coverage = "Coverage";
        coverage_line(share: &str) = "Coverage {share} of the plan by weight";
        coverage_counts(done: usize, all: usize) = "{done} of {all} {all?rating:ratings} done";
        bounds = "Bounds";
        bounds_line(low: &str, high: &str) = "If everything still open came out 0, or came out 10, the score would be {low} or {high}";
        bounds_closed = "Nothing is open, so nothing can still move the score";
        other_weights = "Other weights";
        other_weights_line(low: &str, high: &str, n: &str) = "With other weights and tables: {low} to {high} (95 % of {n} draws)";
        other_weights_hint = "Every weight is halved to doubled and every table bent, at random, to show how much of the score is the choice of weights";
        other_weights_working = "Drawing other weights…";
        in_service = "In service";
        in_service_line(score: &str, low: &str, high: &str) = "In service, what the oil answers for: {score}, {low} to {high}";
        in_service_same = "Nothing is left out in service: no look has another cause";
        in_service_none = "In service nothing is left to score";
        all_causes = "All causes";
        default_weights = "The weights, tables and caps are the project's own defaults; no standard fixes them for field teardowns";
        own_weights = "The weights, tables and caps are those of this plan's author";
        holds_down = "What holds it down";
        holds_down_none = "Nothing is below 10";
        caps_node(node: &str, cap: &str) = "caps {node} at {cap}";
        by_section = "By section";
        section = "Section";
        part = "Part";
        position = "Position";
        characteristic = "Characteristic";
        worst = "Worst";
        wear_map = "Wear map";
        not_looked_at = "Not looked at";
        all_looked_at = "Everything in the plan has been looked at";
        still_open(n: usize, part: &str) = "{part}: {n} open";
        all_open(part: &str) = "{part}: all open";
        reason_line(reason: &str, what: &str) = "{reason}: {what}";
        n_more(n: usize) = "and {n} more";
        left_out = "Left out in service";
        left_out_hint = "Rated, but not the oil's doing. Leaving a look out costs coverage, so nothing can be hidden here";
        left_out_line(what: &str, score: &str, cause: &str) = "{what}, {score}: {cause}";
        left_out_none = "Nothing";
        caps = "Caps";
        caps_hint = "A cap holds a part or section down whatever its mean says";
        cap_bit(rule: &str, mean: &str, cap: &str) = "{rule}: {mean} held down to {cap}";
        cap_set_off(rule: &str, by: &str) = "{rule}, set off by {by}";
        cap_idle = "set off, but the mean is lower anyway";
        cap_open(n: usize) = "{n} open {n?look:looks} could still set it off";
        caps_none = "No cap acts";
        patterns = "Patterns along the engine";
        patterns_none = "Too few positions have been rated to tell a pattern";
        profile = "Profile, front to rear";
        profile_said(values: &str) = "Mean score along the engine: {values}";
        spread_line(low: &str, high: &str, sd: &str) = "From {low} to {high}, spread {sd}";
        outlier_worse(what: &str, by: &str) = "{what} stands out: {by} below the others";
        outlier_better(what: &str, by: &str) = "{what} stands out: {by} above the others";
        trend_worse(row: &str, per: &str, p: &str) = "{row} gets worse to the rear: {per} a position (p = {p})";
        trend_better(row: &str, per: &str, p: &str) = "{row} gets better to the rear: {per} a position (p = {p})";
        trend_none = "No trend from front to rear that chance would not give";
        outlier_hint = "Further from the median than 3.5 times the scaled median deviation";
        many_rows(n: usize) = "{n} rows were looked through; among so many, some stand out by chance";
        grades = "Grades seen";
        grades_hint = "A grade is an order, not a measure: here is how often each was given";
        trade = "Figures of the trade";
        trade_hint = "Computed as their standards do; never mixed with the score";
        raters = "Raters";
        rater_line(name: &str, n: usize) = "{name}: {n} {n?look:looks}";
        raters_both(n: usize) = "{n} {n?characteristic:characteristics} looked at by more than one rater";
        raters_differ(a: &str, b: &str, by: &str, n: usize) = "{a} and {b} differ by {by} on average over {n} {n?look:looks}";
        remarks = "Remarks";
        remarks_none = "No remarks";
        log = "Log";
        log_hint = "Every entry stays, with who made it and when";
        log_corrections = "Corrections and removals";
        log_corrections_none = "Nothing was corrected or taken out";
        n_entries(n: &str) = "{n} entries";
        facts = "Facts";
        plan = "Plan";
        plan_line(name: &str, version: &str, n: usize) = "{name}, version {version}, {n} ratings";
        plan_changed(when: &str) = "The plan of this card was changed {when}";
        plan_outside(n: usize) = "{n} {n?look:looks} of an earlier plan have no place in this one: kept, not scored";
        digest = "Digest";
        digest_hint = "SHA-256 over the content of the file: the same digest means the same content";
        print = "Print";
        save_file = "Save card as a file";
    }
}

words! {
    /// How a number was made.
    Made {
        title(what: &str) = "How {what} was made";
        open = "How it was made";
        formula = "Formula";
        weight = "Weight";
        share = "Share";
        score = "Score";
        product = "Share × score";
        u = "u";
        u_meaning = "Standard uncertainty";
        expanded = "U = 2u";
        coverage = "Coverage";
        sum = "Sum";
        mean = "Mean before caps";
        after_cap = "After the cap";
        open_child = "open";
        entries = "Entries";
        entry_by(who: &str, when: &str) = "{who}, {when}";
        entry_id = "Entry";
        scale = "Scale";
        table = "Table";
        table_row = "the row that was used";
        seen = "Seen";
        worth = "Worth";
        repeatability = "Repeatability u_rep";
        bias = "Bias of a rater u_bias";
        from_looks = "from the looks' own scatter";
        from_raters = "from the raters' bias";
        by_rater(name: &str) = "share of {name}";
        weighted_mean = "s = Σ wᵢ·sᵢ / Σ wᵢ over what has been rated";
        coverage_formula = "coverage = Σ wᵢ·covᵢ / Σ wᵢ over everything";
        bounds_formula = "bounds: the same sums with everything open at 0, and at 10";
        u_formula = "u² = Σ cᵢ²·u_rep,i² + Σ over raters (Σ cᵢ)²·u_bias²";
        looks_formula = "mean of each rater's current look";
        grade_formula = "from the table; a half step is the mean of its neighbours";
        area_formula = "D = Σ aₖ·fₖ, s = 10 − D/10";
        merit_formula = "M = Σ aₖ·mₖ / 100, clean counts 10, s = M";
        points_formula = "straight between the breakpoints";
        state_formula = "from the table";
        measured_formula = "s = 10·(1 − c), c = (x − new)/(limit − new)";
        cap_formula = "the lower of the mean and the cap";
        level = "Level";
        percent = "Percent";
        factor = "Factor";
        merit = "Merit";
        breakpoint = "At";
        whole_method = "The method in full";
    }
}

words! {
    /// The trade's own figures.
    Trade {
        demerits = "Demerits of lands and grooves";
        demerit_unit = "demerits, 0 to 100";
        demerit_formula = "D = Σ aₖ·fₖ";
        weighted_demerits = "Weighted demerit total";
        weighted_demerits_formula = "Σ L·D over lands and grooves";
        unweighted = "unweighted";
        unweighted_hint = "The plan has no location factors, so this is the plain sum";
        incomplete(done: usize, all: usize) = "{done} of {all} lands and grooves rated";
        mean_of_pistons(n: usize) = "mean of {n} {n?piston:pistons}";
        top_groove_fill = "Top groove fill";
        top_groove_fill_formula = "heavy + ½ medium + ¼ light carbon in the top groove, percent";
        top_land_heavy_carbon = "Top land heavy carbon";
        top_land_heavy_carbon_formula = "heavy carbon on the top land, percent of the area";
        sludge_merit = "Sludge merit";
        varnish_merit = "Varnish merit";
        merit_formula = "area-weighted mean of the merits, clean counts 10";
        merit_unit = "merits, 10 is clean";
        ring_distress = "Ring face distress";
        ring_distress_formula = "fraction of the face that is distressed; a broken ring is 1";
        ring_distress_unit = "0 to 1";
        percent_unit = "percent";
        criteria = "Merit sum of the criteria";
        criteria_none = "This plan sets no criteria";
        criterion = "Criterion";
        anchor = "Anchor";
        limit = "Limit";
        best = "Best credit";
        merits = "Merits";
        merit_sum = "Merit sum";
        pass = "pass";
        fail = "fail";
        past_limit = "past the limit";
        no_result = "no result yet";
        factors_own = "The factors are those of the plan; check them against the method you follow";
        not_seen = "not rated";
    }
}

words! {
    /// How names and sayings are put together.
    Names {
        cylinder(column: &str) = "cylinder {column}";
        main(column: &str) = "main {column}";
        cam_bearing(column: &str) = "cam bearing {column}";
        number(column: &str) = "number {column}";
        or = "or";
        or_worse(grade: &str) = "{grade} or worse";
        over(figure: &str) = "over {figure}";
        cap_rule(look: &str, when: &str, within: &str, node: &str, cap: &str) = "{look} {when} in {within}: {node} at most {cap}";
        not_inspected(why: &str) = "not inspected: {why}";
        all_clean = "all clean";
        measured(value: &str) = "measured {value}";
        fact(field: &str, value: &str) = "{field}: {value}";
        cause(cause: &str, what: &str) = "Cause of {what}: {cause}";
        remark(what: &str, text: &str) = "Remark on {what}: {text}";
        remark_engine(text: &str) = "Remark: {text}";
        new_plan(name: &str, version: &str) = "Plan changed to {name}, version {version}";
        void_of(what: &str, why: &str) = "Taken out: {what} ({why})";
        other = "An entry of a newer version, kept as it came";
        rating(what: &str, look: &str) = "{what}: {look}";
        gone = "an entry that is not here";
    }
}

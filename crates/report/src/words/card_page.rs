//! Words of the Card: the result, and how each of its numbers was made.

use super::catalogue::words;

words! {
    /// The result on one page.
    CardPage {
        title = "Card";
        engine = "Engine";
        nothing_yet = "Nothing has been rated yet";
        nothing_yet_hint = "The Card fills as the Bench does: the first look gives the first figure";
        score = "Score";
        score_line(low: &str, high: &str) = "Score, 0 to 10, {low} to {high} (95 %)";
        score_said(score: &str, low: &str, high: &str) = "Score {score}, with 95 % confidence from {low} to {high}";
        scale_hint = "10 is clean or as new, 0 the worst. The scale is the project's own; no standard fixes it";
        no_score = "No score: nothing here has been rated";
        coverage = "Coverage";
        coverage_counts(done: usize, all: usize) = "{done} of {all} {all?rating:ratings} done";
        bounds = "Bounds";
        bounds_closed = "Nothing is open, so nothing can still move the score";
        other_weights = "Other weights";
        other_weights_working = "Drawing other weights…";
        in_service = "In service";
        in_service_same = "Nothing is left out in service: no look has another cause";
        in_service_none = "In service nothing is left to score";
        default_weights = "The weights, tables and caps are the project's own defaults; no standard fixes them for field teardowns";
        own_weights = "The weights, tables and caps are those of this plan's author";
        holds_down = "What holds it down";
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
        n_more(n: usize) = "and {n} more";
        left_out = "Left out in service";
        left_out_hint = "Rated, but not the oil's doing. Leaving a look out costs coverage, so nothing can be hidden here";
        caps = "Caps";
        caps_hint = "A cap holds a part or section down whatever its mean says";
        cap_idle = "set off, but the mean is lower anyway";
        cap_open(n: usize) = "{n} open {n?look:looks} could still set it off";
        patterns = "Patterns along the engine";
        patterns_none = "Too few positions have been rated to tell a pattern";
        profile = "Profile, front to rear";
        spread_line(low: &str, high: &str, sd: &str) = "From {low} to {high}, spread {sd}";
        outlier_hint = "Further from the median than 3.5 times the scaled median deviation";
        grades = "Grades seen";
        grades_hint = "A grade is an order, not a measure: here is how often each was given";
        trade = "Figures of the trade";
        trade_hint = "Computed as their standards do; never mixed with the score";
        raters = "Raters";
        remarks = "Remarks";
        log = "Log";
        log_hint = "Every entry stays, with who made it and when";
        log_corrections = "Corrections and removals";
        log_corrections_none = "Nothing was corrected or taken out";
        n_entries(n: &str) = "{n} entries";
        facts = "Facts";
        plan = "Plan";
        plan_line(name: &str, version: &str, n: usize) = "{name}, version {version}, {n} ratings";
        plan_changed(when: &str) = "The plan of this card was changed {when}";
        plan_outside(n: usize) = "{n} {n?look or reading:looks and readings} of an earlier plan {n?has:have} no place in this one: kept, not scored";
        digest = "Digest";
        digest_hint = "SHA-256 over the content of the file: the same digest means the same content";
        check_word = "Check word";
        check_word_hint = "To be read out: whoever has the same word has the same card";
        print = "Print";
        save_file = "Save card as a file";
        not_saved = "The browser did not save the file";
        open_all = "Open everything";
        close_all = "Close everything";
        opening_all(done: usize, all: usize) = "Opening {done} of {all}: stop";
        rated(when: &str, who: &str) = "Rated {when} by {who}";
        drained(every: &str) = "drained every {every}";
        interval = "95 %";
        bounds_hint = "with everything still open at 0, and at 10";
        other_weights_note(n: &str, seed: u64) = "95 % of {n} draws, seed {seed}: weights halved to doubled, tables bent";
        in_service_left(interval: &str, n: usize) = "{interval} (95 %); {n} {n?look:looks} left out";
        capped = "capped";
        on_bench(what: &str) = "{what} on the Bench";
        open_on_bench = "Open on the Bench";
        cause_left_out(cause: &str) = "cause: {cause}; left out in service";
        by_section_hint = "Press a section to see how its score was made, down to who saw what and when";
        engine_made = "How the engine’s score was made of its sections";
        cap_held = "Set off, and it held the score down";
        cap_not_set_off = "Not set off";
        map_hint = "Each figure is the score of a position, front to rear. Press one to see how it was made. 10 is clean or as new; hatched has not been looked at";
        still_open_title = "Still open";
        still_open_head = "open";
        in_plan_head = "in the plan";
        n_open(n: usize) = "{n} {n?look:looks} still open, by part";
        n_looks(n: usize) = "{n} {n?look:looks}";
        profile_hint = "Weighted mean score of everything rated on each cylinder";
        strays = "Strays";
        strays_none = "No position strays from its row";
        from_median = "from the median";
        trends = "Front to rear";
        row = "Row";
        per_position = "score a position";
        trends_caption(n: usize) = "The clearest of {n} rows; among so many, some slope by chance";
        spreads = "Spread along the engine";
        spreads_caption = "The rows whose scores lie furthest apart";
        lowest = "lowest";
        highest = "highest";
        sd = "s.d.";
        raters_caption = "Who looked, and how often";
        pairs_caption = "What two raters both looked at; a look at agreement, not a test of it";
        looks = "looks";
        not_inspected = "not inspected";
        two_raters(a: &str, b: &str) = "{a} less {b}";
        both = "both rated";
        mean_difference = "mean difference";
        when = "When";
        who = "Who";
        what = "What";
        corrected_from(now: &str, before: &str) = "{now} (corrects {before})";
        outside = "Looks and readings outside the plan";
        plan_and_method = "Plan and method";
        all_scales = "Every scale of the plan, with its table";
        id = "Card";
        below = "Made of";
        column = "Cylinder";
        slope_line(per: &str, tau: &str, p: &str) = "Front to rear {per} of score a cylinder (τ {tau}, p {p})";
        grades_caption = "How often each grade was given, half steps between; last the mean score";
        log_caption = "What was corrected or taken out, the last first";
        map_marks = "▾ caps its part or section · ² more than one rater · × has a cause of its own · n/i not inspected";
    }
}

words! {
    /// How a number was made.
    Made {
        title(what: &str) = "How {what} was made";
        open = "How it was made";
        weight = "Weight";
        share = "Share";
        score = "Score";
        product = "Share × score";
        u = "u";
        u_meaning = "Standard uncertainty";
        coverage = "Coverage";
        sum = "Sum";
        mean = "Mean before caps";
        entries = "Entries";
        entry_id = "Entry";
        scale = "Scale";
        table = "Table";
        seen = "Seen";
        repeatability = "Repeatability u_rep";
        bias = "Bias of a rater u_bias";
        weighted_mean = "s = Σ wᵢ·sᵢ / Σ wᵢ over what has been rated";
        coverage_formula = "coverage = Σ wᵢ·covᵢ / Σ wᵢ over everything";
        bounds_formula = "bounds: the same sums with everything open at 0, and at 10";
        u_formula = "u² = Σ cᵢ²·u_rep,i² + Σ over raters (Σ cᵢ)²·u_bias²";
        grade_formula = "from the table; a half step is the mean of its neighbours";
        merit_formula = "M = Σ aₖ·mₖ / 100, clean counts 10, s = M";
        points_formula = "straight between the breakpoints";
        measured_formula = "s = 10·(1 − c), c = (x − new)/(limit − new)";
        level = "Level";
        percent = "Percent";
        factor = "Factor";
        merit = "Merit";
        terms = "Sections, their weights and scores";
        cap = "Cap rule";
        of_looks = "looks";
        of_raters = "raters";
        bias_line(u: &str, shares: &str) = "raters’ bias {u}, by each rater’s share of the score: {shares}";
        rater = "Rater";
        entry_ids(entry: &str, tablet: &str) = "entry {entry}, tablet …{tablet}";
        mean_of_looks = "Mean of the raters";
        u_rep_score(u: &str) = "{u} of score";
        u_rep_percent(u: &str) = "{u} points of percent, carried through the slope of the table";
        u_rep_count(u: &str) = "{u} counted, carried through the slope of the table";
        watched = "Can set off";
        corrected_by(who: &str) = "corrected later by {who}";
        read_here = "read here";
        as_new = "As new";
        limit = "Limit";
        size_si = "Size, SI units";
        cap_said = "cap rules: the lower of the mean and the cap of each rule that is set off";
        looks_said = "several raters: the mean of each rater’s current look";
        grade_said = "wear grade: s from the table; a half step is the mean of its neighbours";
        area_said = "deposit by area: D = Σ aₖ·fₖ, s = 10 − D/10";
        merit_said = "sludge and varnish by area: s = Σ aₖ·mₖ / 100, clean counts 10";
        points_said = "percent and counts: straight between the breakpoints of the table";
    }
}

words! {
    /// The trade's own figures.
    Trade {
        demerits = "Demerits of lands and grooves";
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
        criterion = "Criterion";
        anchor = "Anchor";
        limit = "Limit";
        best = "Best credit";
        merits = "Merits";
        pass = "pass";
        fail = "fail";
        past_limit = "past the limit";
        no_result = "no result yet";
        factors_own = "The factors are those of the plan; check them against the method you follow";
        figure = "Figure";
        value = "Value";
        unit = "Unit";
        summary = "The engine’s figures: means over what has been rated";
        demerits_caption = "Demerit of each land and groove by piston, 0 clean to 100";
        top_groove_fill_percent = "Top groove fill, percent";
        top_land_heavy_carbon_percent = "Top land heavy carbon, percent";
        total_unit = "demerits";
        surface = "Surface";
        ring = "Ring";
        criteria_caption = "Each figure against its limit, anchor and best credit";
        merit_sum_line(sum: &str, least: &str, became: &str) = "Merit sum {sum} of {least} asked for: {became}";
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

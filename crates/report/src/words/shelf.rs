//! Words of the Shelf and of the facts about an engine.

use super::catalogue::words;

words! {
    /// The engines on this tablet.
    Shelf {
        title = "Shelf";
        engines = "Engines on this tablet";
        new_engine = "New engine…";
        open_file = "Open a file…";
        back_up = "Back up everything";
        restore = "Restore a backup…";
        save_file = "Save card as a file";
        rate = "Rate";
        show_card = "Show the card";
        edit_facts = "Edit facts…";
        delete = "Delete…";
        delete_ask(name: &str) = "Delete {name} from this tablet?";
        delete_hint = "Files saved elsewhere stay as they are";
        delete_no = "Keep it here";
        delete_yes = "Delete it";
        deleted(name: &str) = "{name} deleted";
        undo = "Undo";
        brought_back(name: &str) = "{name} is back on the Shelf";
        bin = "In the bin, for a day at least";
        bin_hint = "It stays in the bin for a day at least";
        bring_back = "Bring it back";
        actions(name: &str) = "What to do with {name}";
        n_engines(n: usize) = "{n} {n?engine:engines}";
        nameless = "Engine without a name";
        empty = "No engine on this tablet yet";
        empty_hint = "Start a new engine, open a card file, or put the demo engines here to try things out";
        find = "Find an engine";
        none_found = "No engine here is called that";
        damaged = "Some records of this engine cannot be read. Open a file or a backup of it to mend it";
        demo = "Demo engines";
        demo_put = "Put the demo engines here";
        demo_note = "The demo engines are invented: rate them, change them, delete them";
        demo_none = "This copy of the program carries no demo engines";
        score = "Score";
        coverage = "Coverage";
        not_scored = "Not scored yet";
        looked_at(done: usize, all: usize) = "{done} of {all} looked at";
        coverage_of(share: &str) = "Coverage {share}";
        of_all(done: &str, all: &str) = "{done} of {all}";
        all_of(all: &str) = "all {all}";
        distance = "Distance";
        oil = "Oil";
        last_change(when: &str) = "Last change {when}";
        read_only = "Open to look at, not to write on";
        storage = "Storage";
        storage_used(used: &str, left: &str) = "{used} used, about {left} left";
        storage_unknown = "This browser does not say how much storage is left";
        storage_low = "Storage is nearly full: save a backup, then delete what is no longer needed here";
        storage_may_go = "The browser may clear this storage when space runs short. A backup is one tap";
        storage_stays = "The browser has promised to keep this storage";
        storage_ask = "Ask the browser to keep it";
        storage_refused = "The browser does not promise to keep this storage. It may clear it when space runs short, so back up often";
        storage_in_file = "This page was opened as a file. Its engines are not in that file but in this browser on this tablet. If the file is moved or renamed, some browsers do not find them until it is back in its place; a copy of it on another tablet begins empty. So back up often";
        storage_off = "This browser keeps nothing for this page, so no engine can be rated here yet";
        storage_private = "In a private window, open Ringland in an ordinary one";
        storage_blocked = "Where cookies or site data are blocked, allow them for this page in the browser's settings";
        storage_other = "If neither is so, free some space, close Ringland's other tabs, and start the browser anew";
        install = "Keep Ringland on this tablet";
        install_hint = "It opens from the home screen like any app, with no network. What is on the Shelf stays where it is";
        install_now = "Install it…";
        never_backed_up = "Not backed up from this tablet yet";
        backed_up(when: &str) = "Last backup {when}";
        changed_since(n: usize) = "{n} {n?engine:engines} changed since";
        backup_saved(what: &str) = "Backup with {what} saved";
        n_own_plans(n: usize) = "{n} {n?plan:plans} of your own";
        n_sheets(n: usize) = "{n} size {n?sheet:sheets}";
        and(before: &str, last: &str) = "{before} and {last}";
        file_saved(name: &str) = "{name} saved as a file";
        file_added(name: &str) = "{name} is on the Shelf";
        merged(n: usize, name: &str) = "{n} new {n?entry:entries} for {name}";
        nothing_new(name: &str) = "Nothing new for {name}: all of this file was here already";
        not_opened(file: &str) = "{file} was not opened";
        drop_here = "Drop a card, a plan, a size sheet or a backup anywhere on this page";
        drop_now = "Let go to open it";
        forget(name: &str) = "Take off {name}";
        forget_short = "Take off";
    }
}

impl Shelf {
    /// What a backup that was saved holds.
    pub fn backup_said(&self, engines: usize, plans: usize, sheets: usize) -> String {
        let others = [
            (plans > 0).then(|| self.n_own_plans(plans)),
            (sheets > 0).then(|| self.n_sheets(sheets)),
        ];
        let mut parts = vec![self.n_engines(engines)];
        parts.extend(others.into_iter().flatten());
        let last = parts.pop().unwrap_or_default();
        if parts.is_empty() {
            return self.backup_saved(&last);
        }
        self.backup_saved(&self.and(&parts.join(", "), &last))
    }
}

words! {
    /// Facts about an engine and the trial, and the form of a new engine.
    Facts {
        title = "New engine";
        edit_title = "Facts";
        open_fields = "Every field may be left open and filled in later";
        create = "Put it on the bench";
        save = "Save the facts";
        saved = "Facts kept";
        nothing_changed = "Nothing was changed";
        cleared_reason = "left open again";
        rater_group = "Who writes this down";
        rater_name = "Your name";
        rater_hint = "Every entry carries the name of who made it";
        rater_needed = "Say who writes this down: every entry carries a name";
        identity = "Engine";
        work = "What it has done";
        oil_group = "Oil";
        layout_group = "Layout";
        plan_group = "Plan";
        name = "Name";
        name_hint = "What you call it here, such as a fleet number";
        fleet = "Fleet";
        fleet_hint = "Whose engine it is";
        vehicle = "Vehicle or set";
        vehicle_hint = "What it was taken out of";
        model = "Engine model";
        model_hint = "As on the maker's plate";
        serial = "Serial number";
        serial_hint = "As on the maker's plate";
        site = "Site";
        site_hint = "Where it worked";
        duty = "Duty";
        duty_hint = "What it did, such as long haul, city bus, genset";
        distance = "Distance";
        distance_hint = "Since new or overhaul, such as 812 400 km or 500,000 mi";
        running_hours = "Running hours";
        running_hours_hint = "Since new or overhaul";
        fuel = "Fuel burned";
        fuel_hint = "Since new or overhaul, such as 240 000 L or 63,000 gal";
        oil = "Oil";
        oil_hint = "The trial's name for it";
        oil_grade = "Oil grade";
        oil_grade_hint = "Viscosity grade, such as 10W-30";
        oil_category = "Oil category";
        oil_category_hint = "Service category on the label";
        drain_distance = "Drain interval, distance";
        drain_distance_hint = "Between two oil changes";
        drain_hours = "Drain interval, hours";
        drain_hours_hint = "Between two oil changes, where hours count";
        sump = "Oil in the sump";
        sump_hint = "At a change, such as 38 L or 10 gal";
        reason = "Why it came out";
        reason_hint = "End of trial, overhaul, a fault";
        understood(value: &str) = "Understood as {value}";
        arrangement = "Cylinders stand";
        inline = "In line";
        vee = "In a V";
        cylinders = "Cylinders";
        camshaft = "Camshaft";
        overhead = "Overhead, one";
        double_overhead = "Overhead, two";
        in_block = "In the block";
        follower = "On the lobe runs";
        roller = "A roller";
        sliding = "A sliding face";
        intake_valves = "Intake valves in a cylinder";
        exhaust_valves = "Exhaust valves in a cylinder";
        injector_lobes = "Injector lobes";
        brake_lobes = "Engine brake lobes";
        liner = "Liners";
        wet = "Wet";
        dry = "Dry";
        parent_bore = "None: the block itself";
        compression_rings = "Compression rings on a piston";
        mains = "Main bearings";
        heads = "Cylinder heads";
        one_head = "One head";
        head_each_bank = "One head for each bank";
        head_each_cylinder = "One head for each cylinder";
        turbochargers = "Turbochargers";
        depth = "How much to look at";
        full = "Full plan";
        full_hint = "Everything that a thorough teardown lays on the bench";
        short = "Short plan";
        short_hint = "What fits into an evening in a yard";
        n_ratings(n: usize) = "{n} {n?rating:ratings}";
        layout_fixed = "The layout is part of the plan that this card was rated with and stays as it is";
        inline_of(n: u8) = "inline {n}";
        vee_of(n: u8) = "V{n}";
        start_from = "Start from";
        layout_more = "Change the layout";
        said_overhead = "overhead camshaft";
        said_double_overhead = "two overhead camshafts";
        said_in_block = "camshaft in the block";
        said_roller = "roller followers";
        said_sliding = "sliding followers";
        said_valves(intake: u8, exhaust: u8) = "{intake} + {exhaust} valves in a cylinder";
        said_injector = "injector lobes";
        said_brake = "engine brake lobes";
        said_wet = "wet liners";
        said_dry = "dry liners";
        said_parent_bore = "no liners";
        said_rings(n: u8) = "{n} compression {n?ring:rings}";
        said_mains(n: u8) = "{n} main bearings";
        said_single_heads = "a head for each cylinder";
        said_turbos(n: u8) = "{n} {n?turbocharger:turbochargers}";
        fewer(what: &str) = "{what}: one step down";
        more(what: &str) = "{what}: one step up";
    }
}

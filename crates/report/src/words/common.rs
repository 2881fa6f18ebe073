//! Words that every screen uses.

use super::catalogue::words;

words! {
    /// The screens.
    Nav {
        app = "Ringland";
        shelf = "Shelf";
        bench = "Bench";
        card = "Card";
    }
}

words! {
    /// Words that every screen uses.
    Common {
        skip_to_content = "Skip to the page";
        screens = "Screens";
        to_shelf = "To the Shelf";
        to_bench = "To the Bench";
        settings = "Settings";
        language = "Language";
        theme = "Theme";
        theme_is(name: &str) = "Theme: {name}";
        auto = "Auto";
        light = "Light";
        dark = "Dark";
        sun = "Sun";
        opening = "Opening…";
        working = "Working…";
        cannot_open = "This engine cannot be opened";
        cancel = "Cancel";
        close = "Close";
        back = "Back";
        save = "Save";
        done = "Done";
        yes = "Yes";
        no = "No";
        try_again = "Try again";
        more = "Show more";
        show_all(n: usize) = "Show all {n}";
        how_made = "How it was made";
        left_open = "left open";
        none = "none";
        range(from: &str, to: &str) = "{from} to {to}";
        update_ready = "A new version is ready";
        update_now = "Change to it now";
        no_scripts = "Ringland works in the browser itself and needs JavaScript switched on";
        cannot_start = "Ringland cannot start in this browser. It needs one from 2024 or later";
        broken = "Something went wrong in the program. What the screen said was kept is kept. Load the page again";
    }
}

words! {
    /// Dates: the months, and how a day is put together.
    Dates {
        january = "January";
        february = "February";
        march = "March";
        april = "April";
        may = "May";
        june = "June";
        july = "July";
        august = "August";
        september = "September";
        october = "October";
        november = "November";
        december = "December";
        date(day: u8, month: &str, year: i64) = "{day} {month} {year}";
        day_of_month(day: u8, month: &str) = "{day} {month}";
        days(first: &str, last: &str) = "{first} to {last}";
        date_time(date: &str, time: &str) = "{date}, {time}";
    }
}

words! {
    /// Units of measure.
    Units {
        title = "Units";
        distance = "Distance";
        volume = "Volume";
        length = "Sizes";
        temperature = "Temperature";
        kilometres = "Kilometres";
        miles = "Miles";
        litres = "Litres";
        us_gallons = "US gallons";
        millimetres = "Millimetres";
        inches = "Inches";
        celsius = "Degrees Celsius";
        fahrenheit = "Degrees Fahrenheit";
        hint = "A unit typed after the figure always holds, whatever is set here";
        hours = "hours";
        count = "count";
    }
}

words! {
    /// The wear grades with their half steps.
    Grades {
        none = "None";
        trace = "Trace";
        light = "Light";
        medium = "Medium";
        heavy = "Heavy";
        severe = "Severe";
        half(better: &str, worse: &str) = "{better} to {worse}";
    }
}

words! {
    /// What each whole grade looks like, in general.
    GradeMeanings {
        none = "As machined; nothing to be seen";
        trace = "Just to be seen when the light falls right";
        light = "Plainly seen, not felt with a fingernail";
        medium = "Plainly seen and just felt; machining marks partly gone";
        heavy = "Felt at once; machining marks gone";
        severe = "Shape changed, metal torn, or a layer worn through";
    }
}

words! {
    /// What is answerable for what was seen.
    Causes {
        in_service = "In service";
        in_service_meaning = "Ordinary work: what the oil answers for";
        dirt = "Dirt";
        dirt_meaning = "Dust or debris that came in from outside";
        coolant = "Coolant";
        coolant_meaning = "Coolant in the oil, or a leak onto the part";
        fuel = "Fuel";
        fuel_meaning = "Fuel in the oil, or bad injection";
        overheating = "Overheating";
        overheating_meaning = "Too hot, from cooling or load, not from the oil";
        assembly = "Assembly";
        assembly_meaning = "Fitting, torque, or an earlier repair";
        mechanical = "Mechanical";
        mechanical_meaning = "Another part failed and did this";
        unknown = "Unknown";
        unknown_meaning = "Nobody can say; it stays with what is in service";
    }
}

words! {
    /// Why a position was not looked at.
    Reasons {
        left_assembled = "Left assembled";
        out_of_reach = "Out of reach";
        cleaned = "Cleaned before anyone looked";
        missing = "Missing, replaced or not fitted";
        sent_away = "Sent away or cut up";
        damaged = "Damaged in taking apart";
        no_time = "No time for it";
    }
}

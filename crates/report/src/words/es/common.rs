//! Words that every screen uses.

use crate::words::common::{Causes, Common, Dates, GradeMeanings, Grades, Nav, Reasons, Units};

pub(super) const NAV: Nav = Nav {
    app: "Ringland",
    shelf: "Estante",
    bench: "Banco",
    card: "Ficha",
};

pub(super) const COMMON: Common = Common {
    skip_to_content: "Ir al contenido",
    screens: "Pantallas",
    to_shelf: "Al Estante",
    to_bench: "Al Banco",
    settings: "Ajustes",
    language: "Idioma",
    theme: "Aspecto",
    theme_is: "Aspecto: {name}",
    auto: "Automático",
    light: "Claro",
    dark: "Oscuro",
    sun: "Sol",
    opening: "Abriendo…",
    working: "Trabajando…",
    cannot_open: "Este motor no se puede abrir",
    cancel: "Cancelar",
    close: "Cerrar",
    back: "Volver",
    save: "Guardar",
    done: "Hecho",
    yes: "Sí",
    no: "No",
    try_again: "Intentar de nuevo",
    more: "Mostrar más",
    show_all: "Mostrar todo ({n})",
    how_made: "Cómo se obtuvo",
    left_open: "sin rellenar",
    none: "ninguno",
    range: "{from} a {to}",
    update_ready: "Hay una versión nueva lista",
    update_now: "Pasar a ella ahora",
    no_scripts: "Ringland funciona en el propio navegador y necesita JavaScript activado",
    cannot_start: "Ringland no puede iniciarse en este navegador. Necesita uno de 2024 o posterior",
    broken: "Algo falló en el programa. Lo que la pantalla dio por guardado está guardado. Vuelva a cargar la página",
};

pub(super) const DATES: Dates = Dates {
    january: "enero",
    february: "febrero",
    march: "marzo",
    april: "abril",
    may: "mayo",
    june: "junio",
    july: "julio",
    august: "agosto",
    september: "septiembre",
    october: "octubre",
    november: "noviembre",
    december: "diciembre",
    date: "{day} de {month} de {year}",
    day_of_month: "{day} de {month}",
    days: "del {first} al {last}",
    date_time: "{date}, {time}",
};

pub(super) const UNITS: Units = Units {
    title: "Unidades",
    distance: "Distancia",
    volume: "Volumen",
    length: "Medidas",
    temperature: "Temperatura",
    kilometres: "Kilómetros",
    miles: "Millas",
    litres: "Litros",
    us_gallons: "Galones de EE. UU.",
    millimetres: "Milímetros",
    inches: "Pulgadas",
    celsius: "Grados Celsius",
    fahrenheit: "Grados Fahrenheit",
    hint: "La unidad escrita tras la cifra vale siempre, sea cual sea el ajuste",
    hours: "horas",
    count: "cantidad",
};

/// The noun is *grado*, so they are masculine whatever was looked at.
pub(super) const GRADES: Grades = Grades {
    none: "Nulo",
    trace: "Traza",
    light: "Leve",
    medium: "Medio",
    heavy: "Fuerte",
    severe: "Severo",
    half: "{better} a {worse}",
};

pub(super) const GRADE_MEANINGS: GradeMeanings = GradeMeanings {
    none: "Como salió de mecanizado; no se ve nada",
    trace: "Se ve solo con la luz en buen ángulo",
    light: "Se ve bien, no se nota con la uña",
    medium: "Se ve bien y apenas se nota; marcas de mecanizado borradas en parte",
    heavy: "Se nota enseguida; marcas de mecanizado borradas",
    severe: "Forma cambiada, metal arrancado o una capa gastada del todo",
};

pub(super) const CAUSES: Causes = Causes {
    in_service: "En servicio",
    in_service_meaning: "Trabajo normal: de esto responde el aceite",
    dirt: "Suciedad",
    dirt_meaning: "Polvo o partículas que entraron de fuera",
    coolant: "Refrigerante",
    coolant_meaning: "Refrigerante en el aceite, o una fuga sobre la pieza",
    fuel: "Combustible",
    fuel_meaning: "Combustible en el aceite, o mala inyección",
    overheating: "Sobrecalentamiento",
    overheating_meaning: "Demasiado calor por la refrigeración o la carga, no por el aceite",
    assembly: "Montaje",
    assembly_meaning: "Ajuste, par de apriete o una reparación anterior",
    mechanical: "Fallo mecánico",
    mechanical_meaning: "Falló otra pieza y dañó esta",
    unknown: "Desconocida",
    unknown_meaning: "Nadie lo puede decir; se queda con lo que es en servicio",
};

pub(super) const REASONS: Reasons = Reasons {
    left_assembled: "No se desmontó",
    out_of_reach: "Fuera de alcance",
    cleaned: "Se limpió antes de que alguien mirara",
    missing: "Falta, se cambió o no se montó",
    sent_away: "Enviado fuera o cortado",
    damaged: "Se dañó al desmontar",
    no_time: "No hubo tiempo",
};

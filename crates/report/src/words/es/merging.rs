//! Spanish words of what another file of a card would bring.

use crate::words::Merging;

pub(super) const MERGING: Merging = Merging {
    title: "¿Unir este archivo a {name}?",
    lead: "Nada de lo que hay aquí se sobrescribe ni se pierde. Se le añade esto",
    looks: "{n} {n?evaluación:evaluaciones}",
    readings: "{n} {n?lectura:lecturas} de instrumento",
    facts: "{n} {n?dato:datos}",
    remarks: "{n} {n?observación escrita:observaciones escritas}",
    seals: "{n} {n?sello:sellos}",
    photos: "{n} {n?foto:fotos}",
    marks: "{n} {n?marca:marcas} en fotos",
    causes: "{n} {n?causa:causas}",
    corrections: "{n} {n?corrección o retirada:correcciones y retiradas}",
    plans: "{n} {n?cambio:cambios} de plan",
    others: "{n} {n?instrumento, hoja o similar:instrumentos, hojas y similares}",
    both: "{n} ya {n?la miró:las miró} aquí otra persona, y valen ambas miradas: {places}",
    anew: "{n} {n?tiene respuesta:tienen respuesta} del mismo evaluador en ambos, y vale la última: {places}",
    apart: "{field}: aquí «{here}», en el archivo «{there}». Después vale «{then}», hasta que alguien anote otra cosa",
    apart_none: "{field}: aquí «{here}», en el archivo «{there}». Después no vale ninguno, pues ambos se retiraron",
    more: "{places} y {n} más",
    take: "Unir",
    take_all: "Unir todos ({n})",
    leave: "Dejar la ficha como está",
    left: "No se unió nada a {name}",
};

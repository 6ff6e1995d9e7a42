// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk

// A row of ReadingsModel, drawn as a ReadingRow, with all that the sheet for it needs.
ReadingRow {
    id: root

    required property string rowId
    required property string placeWords
    required property int input
    required property string unitWords
    required property int decimals
    required property string limitWords
    required property bool hasValue
    required property string valueWords
    required property string valueText
    required property int outcome
    required property string outcomeWords
    required property bool optional
    required property bool figureMissing
    required property bool figureNeeded
    required property string figureFrom
    required property string figureWords
    required property string figureSource
    required property bool figureOpen
    required property bool figureInUse
    required property bool figureAnother
    required property string earlierWords
    required property list<string> optionIds
    required property list<string> optionTitles
    required property list<string> optionWords
    required property string toolWords
    required property string toolKind
    required property list<int> toolIds
    required property list<string> toolNumbers
    required property int toolId
    required property int readingId
    required property string byWords
    required property string standsWords
    required property bool another
    required title

    readonly property string heading: placeWords.length > 0 ? qsTr("%1, %2").arg(root.title).arg(root.placeWords) : root.title

    readonly property string beside: input !== ReadingKinds.Figure && figureWords.length > 0 ? figureWords : earlierWords

    place: placeWords
    value: hasValue ? valueWords : ""
    plain: input === ReadingKinds.Choice || input === ReadingKinds.Text
    limit: figureMissing ? qsTr("this car's figure is missing")
        : input === ReadingKinds.Figure && figureWords.length > 0 ? figureWords
        : plain && hasValue ? "" : limitWords
    source: beside.length > 0 && toolWords.length > 0 ? beside + "\n" + toolWords : beside + toolWords
    reading: outcome === ReadingKinds.Inside ? ReadingRow.Inside
        : outcome === ReadingKinds.Outside ? ReadingRow.Outside
        : outcome === ReadingKinds.Recorded ? ReadingRow.Recorded : ReadingRow.Empty
}

// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// A text in one of the four sizes. Every text on the wall is one.
//   role: Label.Distance | Label.Title | Label.Reading | Label.Detail
//   paper: which ground it stands on;  muted: second voice;  strong: bold
Text {
    id: root

    enum Role {
        Distance,
        Title,
        Reading,
        Detail
    }

    property int role: Label.Reading
    property bool paper: true
    property bool muted: false
    property bool strong: false

    readonly property color loud: paper ? Theme.ink : Theme.groundInk
    readonly property color quiet: paper ? Theme.inkMuted : Theme.groundInkMuted

    color: muted ? quiet : loud
    font.family: Theme.family
    font.bold: strong
    font.pixelSize: role === Label.Distance ? Theme.distanceSize
        : role === Label.Title ? Theme.titleSize
        : role === Label.Detail ? Theme.detailSize : Theme.readingSize
    textFormat: Text.PlainText
}

// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// A count to be read from across the shop, with its words beside it.
//   count, words (broken over two lines where needed), hatched (with the sign of a safety item)
Row {
    id: root

    property int count: 0
    property string words: ""
    property bool hatched: false

    spacing: Theme.mm(3)
    Accessible.role: Accessible.StaticText
    Accessible.name: count + " " + words

    Label {
        id: figure

        anchors.verticalCenter: parent.verticalCenter
        text: root.count
        role: Label.Distance
        paper: false
    }

    Label {
        anchors.verticalCenter: parent.verticalCenter
        text: root.words
        paper: false
        lineHeight: 0.95
    }

    Icon {
        anchors.verticalCenter: parent.verticalCenter
        visible: root.hatched && root.count > 0
        width: Theme.mm(6)
        height: Theme.mm(6)
        symbol: Icon.HatchMark
        colour: Theme.groundInk
    }
}

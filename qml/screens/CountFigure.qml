// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// A count to be read from across the shop, with its words beside it: two lines of them are as high
// as the figure, one stands at its foot.
//   count, known: it was counted, words (broken over two lines where needed), hatched (with the
//   sign of a safety item)
Item {
    id: root

    property int count: 0
    property bool known: true
    property string words: ""
    property bool hatched: false

    implicitWidth: sign.visible ? sign.x + sign.width : said.x + said.width
    Accessible.role: Accessible.StaticText
    Accessible.name: figure.text + " " + words

    Label {
        id: figure

        y: Math.round((parent.height + Theme.mm(17.5)) / 2) - baselineOffset
        text: root.known ? root.count : "–"
        role: Label.Distance
        paper: false
    }

    Label {
        id: said

        x: figure.width + Theme.mm(3)
        y: figure.y + figure.baselineOffset - baselineOffset - (lineCount - 1) * lineHeight
        text: root.words
        role: Label.Title
        paper: false
        lineHeightMode: Text.FixedHeight
        lineHeight: Theme.mm(10.5)
    }

    Icon {
        id: sign

        x: said.x + said.width + Theme.mm(2)
        anchors.verticalCenter: parent.verticalCenter
        visible: root.hatched && root.count > 0
        width: Theme.mm(7)
        height: Theme.mm(7)
        symbol: Icon.HatchMark
        colour: Theme.groundInk
    }
}

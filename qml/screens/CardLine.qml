// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// One outstanding operation on a card: its sign and its words, on two lines where there is room.
//   title, safety, room (pixels from its top to the foot of the space that the lines share)
Item {
    id: root

    property string title: ""
    property bool safety: false
    property real room: 0

    readonly property real oneLine: words.font.pixelSize * 1.34
    readonly property bool fits: title.length > 0 && height <= room + 1
    readonly property real taken: fits ? height + Theme.half * 0.7 : 0

    visible: fits
    implicitHeight: words.implicitHeight

    Icon {
        width: Theme.mm(4.2)
        height: Theme.mm(4.2)
        y: (words.font.pixelSize * 1.18 - height) / 2
        symbol: root.safety ? Icon.HatchMark : Icon.RingMark
    }

    Label {
        id: words

        x: Theme.mm(6)
        width: root.width - x
        text: root.title
        strong: root.safety
        wrapMode: Text.Wrap
        maximumLineCount: root.room < font.pixelSize * 2.8 ? 1 : 2
        lineHeight: 0.98
        elide: Text.ElideRight
    }
}

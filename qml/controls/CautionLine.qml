// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// A caution to be read before work, with the warning triangle.
//   text, note (who read it and when; or whose rule it is), paper
Item {
    id: root

    property string text: ""
    property string note: ""
    property bool paper: true

    implicitWidth: Theme.mm(90)
    implicitHeight: Math.max(sign.height, words.height)

    Icon {
        id: sign

        symbol: Icon.Caution
        colour: Theme.hazardInk
        width: Theme.mm(10)
        height: Theme.mm(10)
    }

    Column {
        id: words

        anchors { left: sign.right; right: parent.right; leftMargin: Theme.mm(3) }

        Label {
            width: parent.width
            text: root.text
            paper: root.paper
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            visible: root.note.length > 0
            text: root.note
            role: Label.Detail
            muted: true
            paper: root.paper
            wrapMode: Text.WordWrap
        }
    }
}

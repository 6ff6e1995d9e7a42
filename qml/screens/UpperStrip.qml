// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// Along the upper edge of every screen: something that concerns all of them, as long as it is so.
//   what, detail, action (empty: nothing can be done here), shown;  signal acted()
Rectangle {
    id: root

    property bool shown: true
    property alias what: title.text
    property alias detail: more.text
    property alias action: look.text

    signal acted

    height: visible ? Math.max(words.height, look.height) + 2 * Theme.half : 0
    visible: root.shown
    color: Theme.paper
    Accessible.role: Accessible.AlertMessage
    Accessible.name: root.what

    Rectangle {
        id: side

        anchors { left: parent.left; top: parent.top; bottom: parent.bottom }
        width: Theme.mm(15)
        color: Theme.ink

        Icon {
            anchors.centerIn: parent
            width: Theme.mm(9)
            height: Theme.mm(9)
            symbol: Icon.Cross
            colour: Theme.paper
        }
    }

    Column {
        id: words

        anchors { left: side.right; leftMargin: Theme.module; right: look.left; rightMargin: Theme.module; verticalCenter: parent.verticalCenter }

        Label {
            id: title

            width: parent.width
            strong: true
            wrapMode: Text.WordWrap
        }

        Label {
            id: more

            width: parent.width
            role: Label.Detail
            wrapMode: Text.WordWrap
        }
    }

    ActionButton {
        id: look

        anchors { right: parent.right; rightMargin: Theme.margin; verticalCenter: parent.verticalCenter }
        paper: true
        visible: text.length > 0
        width: visible ? implicitWidth : 0
        onTapped: root.acted()
    }
}

// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Along the upper edge of every screen while the workshop's server is away, while something that was
// done here waits or was refused, or while somebody has to read what befell this kiosk. It stays
// until none of this is so.
//   server;  signal wanted(): somebody wants to see what is kept
Rectangle {
    id: root

    required property ServerView server

    signal wanted

    height: visible ? Math.max(words.height, look.height) + 2 * Theme.half : 0
    visible: root.server.shown
    color: Theme.paper
    Accessible.role: Accessible.AlertMessage
    Accessible.name: root.server.what

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
            width: parent.width
            text: root.server.what
            strong: true
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            text: root.server.detail
            role: Label.Detail
            wrapMode: Text.WordWrap
        }
    }

    ActionButton {
        id: look

        anchors { right: parent.right; rightMargin: Theme.margin; verticalCenter: parent.verticalCenter }
        paper: true
        text: qsTr("What is kept here")
        visible: root.server.waiting + root.server.refused + root.server.notices > 0
        width: visible ? implicitWidth : 0
        onTapped: root.wanted()
    }
}

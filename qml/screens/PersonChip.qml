// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Who is signed in, and for how long still; or the question. Touching it asks, or offers to sign
// out.
//   shell, navigator;  accent: while nobody is signed in it is the way on
Touchable {
    id: root

    required property Shell shell
    required property Navigator navigator
    property bool accent: false
    readonly property bool loud: accent && !session.signedIn
    readonly property Session session: shell.session
    readonly property bool soon: session.signedIn && session.secondsLeft <= 20

    spoken: session.signedIn ? session.name : words.text
    implicitWidth: row.implicitWidth + 2 * Theme.module
    onTapped: {
        if (!root.session.signedIn)
            root.session.ask()
        else
            root.session.signOut()
    }

    Rectangle {
        anchors.fill: parent
        radius: Theme.radius
        color: root.loud ? (root.pressed ? Theme.accentPressed : Theme.accent)
            : root.pressed ? Theme.groundLine : Theme.raised
        border.width: root.activeFocus ? Theme.thickLine : root.loud ? Theme.line : 0
        border.color: root.activeFocus ? Theme.groundInk : Theme.groundAccent
    }

    Row {
        id: row

        anchors.centerIn: parent
        spacing: Theme.half

        Icon {
            anchors.verticalCenter: parent.verticalCenter
            symbol: Icon.Person
            colour: root.loud ? Theme.accentInk : Theme.groundInk
        }

        Column {
            anchors.verticalCenter: parent.verticalCenter

            Label {
                id: words

                width: Math.min(implicitWidth, Theme.mm(72))
                text: root.session.signedIn ? root.session.name : qsTr("Who are you?")
                elide: Text.ElideRight
                color: root.loud ? Theme.accentInk : Theme.groundInk
            }

            Label {
                visible: root.session.signedIn
                text: root.soon ? qsTr("signs out in %1 s").arg(root.session.secondsLeft) : qsTr("sign out")
                role: Label.Detail
                paper: false
                muted: true
            }
        }
    }
}

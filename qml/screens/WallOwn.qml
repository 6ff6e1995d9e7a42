// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Who is signed in: what is theirs, what comes next, and the way back to what they have in hand.
//   shell, navigator;  signal mineWanted()
Item {
    id: root

    required property Shell shell
    required property Navigator navigator
    readonly property WallModel wall: shell.wall

    signal mineWanted

    Row {
        id: ownTabs

        spacing: Theme.gap

        FilterTab {
            text: qsTr("Mine")
            selected: root.wall.person > 0 && root.wall.person === root.shell.session.personId
            onTapped: root.mineWanted()
        }

        FilterTab {
            text: qsTr("My next")
            onTapped: root.navigator.openMyNext()
        }
    }

    Touchable {
        id: mine

        anchors { left: ownTabs.right; leftMargin: Theme.gap; right: parent.right }
        visible: root.shell.myOperationId > 0
        spoken: myTitle.text
        onTapped: root.navigator.openOperation(root.shell.myCarId, root.shell.myOperationId)

        Rectangle {
            anchors.fill: parent
            radius: Theme.radius
            color: mine.pressed ? Theme.accentPressed : Theme.accent
        }

        Row {
            anchors { left: parent.left; leftMargin: Theme.mm(6); right: parent.right; rightMargin: Theme.mm(6); verticalCenter: parent.verticalCenter }
            spacing: Theme.module

            Label {
                id: myWords

                text: root.shell.myWords
                color: Theme.accentInk
                strong: true
            }

            Label {
                id: myTitle

                width: parent.width - myWords.width - openIt.width - 2 * parent.spacing
                text: root.shell.myTitle
                color: Theme.accentInk
                elide: Text.ElideRight
            }

            Label {
                id: openIt

                text: qsTr("go on")
                color: Theme.accentInk
                font.underline: true
            }
        }
    }
}

// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The next three operations of who is signed in, with why. A touch goes to the operation.
ScreenFrame {
    id: root

    readonly property MyNext next: shell.myNext

    title: shell.session.signedIn ? qsTr("Next for %1").arg(shell.session.name) : qsTr("Next")

    Component.onCompleted: {
        if (!root.shell.session.signedIn)
            root.shell.session.ask()
    }

    ListView {
        id: list

        // Upright the first is said as large as there is room for, and what comes after has its own list.
        readonly property real firstHeight: root.tall ? Math.min(Theme.mm(165), height * 0.46) : rowHeight
        readonly property real rowHeight: root.tall ? (height - firstHeight - 2 * spacing) / 2 : Math.min(Theme.mm(92), (height - 2 * spacing) / 3)

        width: parent.width
        height: parent.height - (later.visible ? later.height + Theme.module : 0)
        clip: true
        spacing: Theme.gap
        boundsBehavior: Flickable.DragOverBounds
        interactive: contentHeight > height
        model: root.next

        delegate: NextLine {
            width: list.width
            height: index === 0 ? list.firstHeight : list.rowHeight
            grand: root.tall && index === 0
            onTapped: root.navigator.openOperation(carId, operationId)
        }
    }

    // What comes after that, a line each.
    Column {
        id: later

        anchors { left: parent.left; right: parent.right; bottom: parent.bottom }
        visible: root.tall && laterList.count > 0

        Label {
            width: parent.width
            bottomPadding: Theme.half
            text: qsTr("After that")
            paper: false
            muted: true
        }

        Repeater {
            id: laterList

            model: root.next.later

            delegate: Touchable {
                id: line

                required property int index
                required property string carId
                required property int operationId
                required property string stockNumber
                required property string title
                required property string whenWords

                width: later.width
                visible: index < 5
                implicitHeight: visible ? Theme.touch : 0
                spoken: line.stockNumber + ", " + line.title
                onTapped: root.navigator.openOperation(line.carId, line.operationId)

                Rectangle {
                    anchors.fill: parent
                    anchors.bottomMargin: Theme.half
                    radius: Theme.radius
                    color: line.pressed ? Theme.groundLine : Theme.raised
                }

                Label {
                    id: stock

                    anchors { left: parent.left; leftMargin: Theme.mm(6); verticalCenter: parent.verticalCenter; verticalCenterOffset: -Theme.half / 2 }
                    width: Theme.mm(46)
                    text: line.stockNumber
                    role: Label.Title
                    paper: false
                    fontSizeMode: Text.HorizontalFit
                    minimumPixelSize: Theme.detailSize
                }

                Label {
                    anchors { left: stock.right; right: when.left; rightMargin: Theme.module; verticalCenter: stock.verticalCenter }
                    text: line.title
                    paper: false
                    elide: Text.ElideRight
                }

                Label {
                    id: when

                    anchors { right: parent.right; rightMargin: Theme.mm(6); verticalCenter: stock.verticalCenter }
                    text: line.whenWords
                    paper: false
                    muted: true
                }
            }
        }
    }

    Waiting {
        anchors.centerIn: parent
        visible: !root.next.planned
        text: qsTr("Planning the workshop")
    }

    EmptyState {
        anchors.centerIn: parent
        visible: root.next.planned && list.count === 0
        title: root.shell.session.signedIn ? qsTr("Nothing is planned for you") : qsTr("Who are you?")
        hint: root.shell.session.signedIn ? qsTr("What can go on is on the wall, by skill.") : qsTr("Sign in to see what comes next for you.")
        action: root.shell.session.signedIn ? qsTr("To the wall") : qsTr("Sign in")
        onActed: {
            if (root.shell.session.signedIn)
                root.navigator.home()
            else
                root.shell.session.ask()
        }
    }

    // Work that is not in the ledger was lost for the one whose it was.
    ways: [
        ActionButton {
            visible: root.shell.server.read > 0
            text: qsTr("Sent later, and refused: %1").arg(root.shell.server.read)
            onTapped: refused.ask()
        }
    ]
    sheets: LaterSheet {
        id: refused

        file: "RefusedSheet.qml"
        given: ({ server: root.shell.server })
    }

    actions: [
        ActionButton {
            text: qsTr("Bays")
            onTapped: root.navigator.openBays()
        }
    ]
}

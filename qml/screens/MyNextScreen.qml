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

        readonly property real rowHeight: Math.min(Theme.mm(150), (height - 2 * spacing) / 3)
        // Upright there is room to say it larger.
        readonly property bool roomy: rowHeight >= Theme.mm(100)

        anchors.fill: parent
        clip: true
        spacing: Theme.gap
        boundsBehavior: Flickable.DragOverBounds
        interactive: contentHeight > height
        model: root.next

        delegate: Touchable {
            id: row

            required property int index
            required property string carId
            required property int operationId
            required property string stockNumber
            required property string makeModel
            required property string title
            required property bool inHand
            required property string whenWords
            required property string whereWords
            required property string whyWords
            required property string promisedWords

            width: list.width
            height: list.rowHeight
            spoken: row.stockNumber + ", " + row.title
            onTapped: root.navigator.openOperation(row.carId, row.operationId)

            Rectangle {
                anchors.fill: parent
                radius: Theme.radius
                color: row.pressed ? Theme.sunk : Theme.paper
            }

            StateBand {
                anchors { left: parent.left; top: parent.top; bottom: parent.bottom }
                width: Theme.band
                band: row.inHand ? StateBand.InHand : StateBand.Empty
            }

            Label {
                id: stock

                x: Theme.band + Theme.mm(6)
                y: Theme.mm(4 + 17.5) - baselineOffset
                width: Math.min(implicitWidth, parent.width - x - Theme.mm(6))
                text: row.stockNumber
                role: Label.Distance
                fontSizeMode: Text.HorizontalFit
                minimumPixelSize: Theme.titleSize
            }

            Label {
                anchors { left: stock.right; leftMargin: Theme.mm(8); right: parent.right; rightMargin: Theme.mm(6); baseline: stock.baseline }
                text: row.whenWords
                role: Label.Title
                strong: true
                horizontalAlignment: Text.AlignRight
                elide: Text.ElideRight
            }

            Column {
                anchors { left: stock.left; right: parent.right; rightMargin: Theme.mm(6) }
                y: Theme.mm(4 + 17.5 + (list.roomy ? 12 : 6))
                spacing: list.roomy ? Theme.module : 0

                Label {
                    width: parent.width
                    text: row.title
                    font.pixelSize: Theme.titleSize * (list.roomy ? 1.5 : 1)
                    wrapMode: list.roomy ? Text.WordWrap : Text.NoWrap
                    maximumLineCount: list.roomy ? 2 : 1
                    elide: Text.ElideRight
                    fontSizeMode: list.roomy ? Text.FixedSize : Text.HorizontalFit
                    minimumPixelSize: Theme.readingSize
                }

                Label {
                    width: parent.width
                    text: root.dotted(root.dotted(row.whereWords, row.makeModel), row.promisedWords)
                    muted: true
                    wrapMode: list.roomy ? Text.WordWrap : Text.NoWrap
                    elide: Text.ElideRight
                }

                Label {
                    width: parent.width
                    text: row.whyWords
                    role: list.roomy ? Label.Title : Label.Reading
                    wrapMode: Text.WordWrap
                    maximumLineCount: list.roomy ? 3 : 2
                    elide: Text.ElideRight
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

    actions: [
        ActionButton {
            text: qsTr("Bays")
            onTapped: root.navigator.openBays()
        }
    ]
}

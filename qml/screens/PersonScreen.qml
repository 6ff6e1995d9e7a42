// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Who are you? Names by skill, then the PIN of the one who was touched (or whose badge was read).
// For a PIN that is asked again it is a sheet over the screen that asked.
FocusScope {
    id: root

    required property Shell shell
    readonly property Session session: shell.session
    readonly property bool tall: height > width
    readonly property bool asking: session.stage === Session.Pin

    focus: true
    Keys.onEscapePressed: root.session.cancel()
    onAskingChanged: root.take()
    Component.onCompleted: root.take()

    // A keyboard types into the pad that is shown.
    function take(): void {
        if (root.asking)
            (root.session.again ? againPad : pad).forceActiveFocus()
    }

    function saidWords(): string {
        if (root.session.words.length > 0)
            return root.session.words
        return root.session.again ? qsTr("Your PIN again, please.") : qsTr("Your PIN, please.")
    }

    Rectangle {
        anchors.fill: parent
        visible: !root.session.again
        color: Theme.ground

        MouseArea {
            anchors.fill: parent
        }
    }

    Item {
        id: page

        anchors { fill: parent; margins: Theme.margin; topMargin: Theme.module; bottomMargin: Theme.module }
        visible: !root.session.again

        Label {
            id: heading

            width: parent.width
            height: Theme.mm(20)
            verticalAlignment: Text.AlignVCenter
            text: root.session.waitingFor.length > 0 ? qsTr("Who are you, %1?").arg(root.session.waitingFor) : qsTr("Who are you?")
            role: Label.Title
            paper: false
            elide: Text.ElideRight
        }

        Flickable {
            id: names

            anchors {
                left: parent.left
                top: heading.bottom
                right: root.tall || !root.asking ? parent.right : sheet.left
                rightMargin: root.tall || !root.asking ? 0 : Theme.mm(6)
                bottom: root.tall && root.asking ? sheet.top : foot.top
                bottomMargin: Theme.module
            }
            contentHeight: folk.height
            clip: true
            boundsBehavior: Flickable.DragOverBounds

            SkillColumns {
                id: folk

                width: names.width
                room: names.height
                people: root.shell.people
                chosenId: root.asking ? root.session.askedId : 0
                onChosen: personId => root.session.choose(personId)
            }
        }

        EmptyState {
            anchors.centerIn: names
            visible: folk.count === 0
            title: qsTr("Nobody works here yet")
            hint: qsTr("The first person is made when the workshop is set up.")
        }

        Rectangle {
            id: sheet

            anchors { right: parent.right; bottom: root.tall ? foot.top : parent.bottom; bottomMargin: root.tall ? Theme.module : 0 }
            width: root.tall ? parent.width : pad.implicitWidth + 2 * Theme.mm(12)
            height: root.tall ? pad.height + who.height + 3 * Theme.margin : parent.height - heading.height
            visible: root.asking
            radius: Theme.radius
            color: Theme.paper

            Label {
                id: who

                anchors { left: parent.left; right: parent.right; top: parent.top; margins: Theme.margin }
                text: root.session.askedName
                role: Label.Title
                horizontalAlignment: Text.AlignHCenter
                elide: Text.ElideRight
            }

            PinPad {
                id: pad

                anchors { horizontalCenter: parent.horizontalCenter; bottom: parent.bottom; bottomMargin: Theme.margin }
                digits: root.session.pad.digits
                message: root.saidWords()
                busy: root.session.busy
                available: root.session.waitSeconds === 0 && !root.session.locked
                onEntered: pin => root.session.pad.enter(pin)
            }
        }

        Row {
            id: foot

            anchors { left: parent.left; bottom: parent.bottom }
            spacing: Theme.module

            ActionButton {
                id: cancel

                symbol: Icon.Back
                text: qsTr("Back")
                onTapped: root.session.cancel()
            }

            Label {
                anchors.verticalCenter: parent.verticalCenter
                width: Math.min(implicitWidth, names.width - cancel.width - parent.spacing)
                text: root.shell.server.staffWords.length > 0 ? root.shell.server.staffWords
                    : root.asking ? qsTr("Somebody else? Touch the name.") : qsTr("Touch your name, or hold your badge to the reader.")
                paper: false
                muted: true
                wrapMode: Text.WordWrap
                maximumLineCount: 2
            }
        }
    }

    DialogSheet {
        shown: root.asking && root.session.again
        title: root.session.askedName
        low: true
        sheetWidth: againPad.implicitWidth + 2 * Theme.mm(16)
        onDismissed: root.session.cancel()

        Column {
            width: parent.width
            spacing: Theme.module

            Label {
                width: parent.width
                visible: root.session.waitingFor.length > 0
                text: root.session.waitingFor
                wrapMode: Text.WordWrap
            }

            PinPad {
                id: againPad

                anchors.horizontalCenter: parent.horizontalCenter
                digits: root.session.pad.digits
                message: root.saidWords()
                busy: root.session.busy
                available: root.session.waitSeconds === 0 && !root.session.locked
                onEntered: pin => root.session.pad.enter(pin)
            }

            ActionButton {
                width: parent.width
                paper: true
                text: qsTr("Cancel")
                onTapped: root.session.cancel()
            }
        }
    }
}

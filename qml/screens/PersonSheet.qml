// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// One person of the staff: name, skills, rights, first PIN or a new one, badge, leaving.
TellingSheet {
    id: root

    required property StaffView view
    readonly property bool fresh: view.personId === 0
    property bool choosesPin: false
    // Somebody who is here already and gets a new PIN: nothing else is asked.
    readonly property bool onlyPin: !fresh && choosesPin

    // Qualifications and specialities of who is here already.
    signal competenceWanted
    signal timesWanted
    signal weekWanted
    signal extraWanted

    ask: view.ask
    title: fresh ? qsTr("A new person") : view.name
    sheetWidth: Math.min(Theme.mm(300), width - 2 * Theme.margin)
    onDismissed: root.shown = false
    onShownChanged: {
        root.choosesPin = root.fresh
        root.view.newPin.reset()
    }

    // The pad stands beside the form: it is in sight whatever else there is.
    Flickable {
        width: parent.width - (pad.visible ? pad.width + Theme.margin : 0)
        height: Math.min(column.height, root.height - Theme.mm(90))
        contentHeight: column.height
        clip: true

        Column {
            id: column

            width: parent.width
            spacing: Theme.module

            Field {
                width: parent.width
                visible: !root.onlyPin
                label: qsTr("Name")
                text: root.view.name
                onEdited: text => root.view.name = text
            }

            Label {
                visible: !root.onlyPin
                text: qsTr("Skills")
                role: Label.Detail
                muted: true
            }

            ChoiceChips {
                width: parent.width
                visible: !root.onlyPin
                choices: root.view.skills
            }

            Label {
                visible: !root.onlyPin
                text: qsTr("May")
                role: Label.Detail
                muted: true
            }

            ChoiceChips {
                width: parent.width
                visible: !root.onlyPin
                choices: root.view.rights
            }

            ChoiceChip {
                visible: !root.fresh && !root.onlyPin
                text: qsTr("Works here")
                selected: root.view.active
                onTapped: root.view.active = !root.view.active
            }

            Label {
                width: parent.width
                visible: text.length > 0
                text: root.view.badgeWords
                wrapMode: Text.WordWrap
            }

            // What is done at once or on a sheet of its own; below stands what ends this one.
            Flow {
                width: parent.width
                visible: !root.fresh
                spacing: Theme.gap

                ActionButton {
                    paper: true
                    visible: text.length > 0
                    text: root.view.giveBadgeWords
                    onTapped: root.view.giveBadge()
                }

                ActionButton {
                    paper: true
                    visible: root.view.giveBadgeWords.length === 0
                    text: qsTr("Take the badge away")
                    onTapped: root.view.takeBadge()
                }

                ActionButton {
                    paper: true
                    visible: !root.onlyPin
                    text: qsTr("Qualifications")
                    onTapped: root.competenceWanted()
                }

                ActionButton {
                    paper: true
                    visible: !root.onlyPin
                    text: qsTr("Days away")
                    onTapped: root.timesWanted()
                }

                ActionButton {
                    paper: true
                    visible: !root.onlyPin
                    text: qsTr("Own week")
                    onTapped: root.weekWanted()
                }

                ActionButton {
                    paper: true
                    visible: !root.onlyPin
                    text: qsTr("Extra hours")
                    onTapped: root.extraWanted()
                }
            }
        }
    }

    PinPad {
        id: pad

        anchors.right: parent.right
        visible: root.choosesPin
        height: visible ? implicitHeight : 0
        digits: root.view.newPin.pad.digits
        message: root.view.newPin.ready ? qsTr("The PIN is chosen.") : root.view.newPin.again ? qsTr("The same again, please.") : root.view.newPin.words
        available: !root.view.newPin.ready
        onEntered: pin => root.view.newPin.pad.enter(pin)
    }

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Cancel")
            onTapped: root.shown = false
        },
        ActionButton {
            paper: true
            visible: !root.fresh
            text: root.choosesPin ? qsTr("Set this PIN") : qsTr("New PIN")
            available: !root.choosesPin || root.view.newPin.ready
            reason: qsTr("type it twice")
            onTapped: {
                if (root.choosesPin)
                    root.view.resetPin()
                else
                    root.choosesPin = true
            }
        },
        ActionButton {
            paper: true
            visible: !root.onlyPin
            kind: ActionButton.Accent
            text: root.fresh ? qsTr("Add") : qsTr("Save")
            available: root.view.name.trim().length > 0 && (!root.fresh || root.view.newPin.ready) && !root.view.ask.busy
            reason: root.view.name.trim().length === 0 ? qsTr("name first") : qsTr("PIN, twice")
            onTapped: root.view.save()
        }
    ]
}

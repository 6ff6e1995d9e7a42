// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Signs this wheel's work off together with others of its kind: which ones, and what was different
// on each. The readings of this one go to all others.
//   view;  open()
TellingSheet {
    id: root

    required property TogetherView view
    property ReadingLine line: null
    readonly property bool digits: line !== null && line.input <= ReadingKinds.Record

    function open(): void {
        root.line = null
        root.view.begin()
        root.shown = true
    }

    function take(text: string): void {
        if (root.line !== null)
            root.view.correct(root.line.rowId, text)
        root.line = null
    }

    ask: view.ask
    title: root.line !== null ? qsTr("%1: %2").arg(root.view.lookedWords).arg(root.line.heading) : qsTr("Sign off with others")
    sheetWidth: Math.min(Theme.mm(240), width - 2 * Theme.margin)
    onDismissed: root.shown = false

    Connections {
        target: root.view

        function onSignedTogether(): void {
            root.shown = false
        }
    }

    Column {
        width: parent.width
        spacing: Theme.module

        Flow {
            width: parent.width
            visible: root.line === null
            spacing: Theme.gap

            Repeater {
                model: root.view.wheels

                delegate: ChoiceChip {
                    required property string choiceId
                    required property string title
                    required property bool chosen

                    text: title
                    selected: chosen
                    onTapped: root.view.choose(choiceId)
                }
            }
        }

        Label {
            width: parent.width
            visible: root.line === null
            text: root.view.shareWords
            wrapMode: Text.WordWrap
            muted: true
        }

        Label {
            width: parent.width
            visible: root.line === null && root.view.lookedId.length > 0
            text: qsTr("%1 gets these readings. Touch one that was different on it.").arg(root.view.lookedWords)
            wrapMode: Text.WordWrap
        }

        Flow {
            width: parent.width
            visible: root.line === null && root.view.wheels.chosen.length > 1
            spacing: Theme.gap

            Repeater {
                model: root.view.wheels

                delegate: ActionButton {
                    required property string choiceId
                    required property string title
                    required property bool chosen

                    paper: true
                    visible: chosen && choiceId !== root.view.lookedId
                    text: qsTr("Look at %1").arg(title)
                    onTapped: root.view.look(choiceId)
                }
            }
        }

        Column {
            width: parent.width
            visible: root.line === null

            Repeater {
                model: root.view.readings

                delegate: ReadingLine {
                    id: reading

                    width: parent !== null ? parent.width : 0
                    onTapped: {
                        pad.text = ""
                        words.text = ""
                        root.line = reading
                        if (root.digits)
                            pad.forceActiveFocus()
                        else if (root.line.input === ReadingKinds.Text)
                            words.edit()
                    }
                }
            }
        }

        NumberPad {
            id: pad

            anchors.horizontalCenter: parent.horizontalCenter
            visible: root.digits
            height: visible ? implicitHeight : 0
            unit: root.line !== null ? root.line.unitWords : ""
            decimals: root.line !== null ? root.line.decimals : 0
            signed: root.line !== null && root.line.unitWords === "°C"
            onDone: text => root.take(text)
        }

        Flow {
            width: parent.width
            visible: root.line !== null && root.line.input === ReadingKinds.Choice
            spacing: Theme.gap

            Repeater {
                model: root.line !== null && root.line.input === ReadingKinds.Choice ? root.line.optionIds.length : 0

                delegate: ChoiceChip {
                    required property int index

                    text: root.line !== null ? root.line.optionTitles[index] : ""
                    note: root.line !== null && root.line.optionWords.length > index ? root.line.optionWords[index] : ""
                    selected: root.line !== null && root.line.valueText === root.line.optionIds[index]
                    onTapped: root.take(root.line.optionIds[index])
                }
            }
        }

        Field {
            id: words

            width: parent.width
            visible: root.line !== null && root.line.input === ReadingKinds.Text
            height: visible ? implicitHeight : 0
            onAccepted: root.take(words.text)
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: root.line !== null ? qsTr("Back") : qsTr("Cancel")
            onTapped: {
                if (root.line !== null)
                    root.line = null
                else
                    root.shown = false
            }
        },
        ActionButton {
            visible: root.line === null
            paper: true
            kind: ActionButton.Accent
            text: qsTr("Sign all of them")
            available: root.view.wheels.chosen.length > 0 && !root.view.ask.busy
            reason: qsTr("choose the other wheels")
            onTapped: root.view.sign()
        }
    ]
}

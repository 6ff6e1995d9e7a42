// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The house rules: what the house asks for, how it is called here, who may do what. All that was
// changed is signed at once.
//   rules;  signal limitWanted(...): a number is to be typed
Item {
    id: root

    required property RulesView rules
    readonly property bool wide: width > Theme.mm(300)

    signal limitWanted(string rowId, string title, string unit, int decimals, string source, string text)

    Flickable {
        anchors.fill: parent
        contentHeight: page.height
        clip: true
        boundsBehavior: Flickable.DragOverBounds

        Grid {
            id: page

            readonly property real columnWidth: root.wide ? (width - columnSpacing) / 2 : width

            width: parent.width
            columns: root.wide ? 2 : 1
            columnSpacing: Theme.mm(12)
            rowSpacing: Theme.mm(8)

            Column {
                width: page.columnWidth

                Label {
                    text: qsTr("Limits")
                    role: Label.Detail
                    muted: true
                }

                Repeater {
                    id: limits

                    model: root.rules.limits

                    delegate: SettingLine {
                        required property string rowId
                        required property string boundWords
                        required property string ownerWords
                        required property string source
                        required property bool own
                        required property bool changed
                        required property string valueText
                        required property string unitWords
                        required property int decimals
                        required title

                        width: page.columnWidth
                        detail: source
                        value: boundWords
                        note: changed ? qsTr("%1, changed").arg(ownerWords) : ownerWords
                        mark: changed ? SettingLine.Changed : SettingLine.Plain
                        editable: own
                        onTapped: root.limitWanted(rowId, title, unitWords, decimals, source, valueText)
                    }
                }

                Label {
                    width: parent.width
                    visible: limits.count === 0
                    text: qsTr("This catalogue names no limits of the house.")
                    muted: true
                    wrapMode: Text.WordWrap
                }
            }

            Column {
                width: page.columnWidth
                spacing: Theme.mm(6)

                SettingGroup {
                    question: qsTr("Country")
                    note: qsTr("Brings its limits, words and currency along. Verify them locally.")
                    choices: root.rules.countries
                }

                SettingGroup {
                    question: qsTr("The sides of a car are called")
                    choices: root.rules.sides
                }

                SettingGroup {
                    question: qsTr("Traffic keeps")
                    choices: root.rules.traffic
                }

                SettingGroup {
                    question: qsTr("Costs are in")
                    choices: root.rules.currencies
                }

                Column {
                    width: parent.width
                    spacing: Theme.half

                    Label {
                        text: qsTr("The shift ends at")
                    }

                    Row {
                        spacing: Theme.gap

                        ActionButton {
                            paper: true
                            text: qsTr("15 min earlier")
                            onTapped: root.rules.moveShiftEnd(-15)
                        }

                        Label {
                            anchors.verticalCenter: parent.verticalCenter
                            width: Theme.mm(36)
                            horizontalAlignment: Text.AlignHCenter
                            text: root.rules.shiftEnd
                            role: Label.Title
                        }

                        ActionButton {
                            paper: true
                            text: qsTr("15 min later")
                            onTapped: root.rules.moveShiftEnd(15)
                        }
                    }
                }

                SettingGroup {
                    question: qsTr("Signed out without a touch after")
                    choices: root.rules.locks
                }

                SettingGroup {
                    question: qsTr("A manager may leave as it is")
                    note: qsTr("Cosmetic work only, with words for the buyer. Safety items are never left.")
                    choices: root.rules.mayBeLeft
                }

                SettingGroup {
                    question: qsTr("All work on a car is photographed")
                    note: qsTr("Beside what an operation asks for itself.")
                    choices: root.rules.photos
                }

                SettingGroup {
                    question: qsTr("Photos are kept, once a car was released or left")
                    note: qsTr("A claim about a sale can come years later: ask what your law wants. Nothing goes by itself; ramplight tidy says what it would remove, and removes it when told to.")
                    choices: root.rules.photoYears
                }

                Column {
                    width: parent.width
                    spacing: Theme.half

                    Label {
                        width: parent.width
                        text: qsTr("The final check")
                    }

                    Label {
                        width: parent.width
                        text: qsTr("For a very small workshop. Every other check stays with a second person.")
                        role: Label.Detail
                        muted: true
                        wrapMode: Text.WordWrap
                    }

                    ChoiceChip {
                        text: qsTr("May be made by who did other, checked work")
                        selected: root.rules.finalCheckByWorker
                        onTapped: root.rules.finalCheckByWorker = !root.rules.finalCheckByWorker
                    }
                }
            }
        }
    }
}

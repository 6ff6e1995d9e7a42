// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Somebody's own week: when they begin, when they end, which days they are off.
//   view
TellingSheet {
    id: root

    required property TimesView view
    // The day that is changed, Monday is 1; 0: none.
    property int day: 0

    ask: view.ask
    title: qsTr("%1: own week").arg(view.name)
    sheetWidth: Math.min(Theme.mm(270), width - 2 * Theme.margin)
    onDismissed: root.shown = false
    onShownChanged: root.day = 0

    Column {
        width: parent.width
        spacing: Theme.module

        Row {
            spacing: Theme.gap

            ChoiceChip {
                text: qsTr("As the house")
                selected: !root.view.ownWeek
                onTapped: {
                    root.day = 0
                    root.view.ownWeek = false
                }
            }

            ChoiceChip {
                text: qsTr("Hours of their own")
                selected: root.view.ownWeek
                onTapped: root.view.ownWeek = true
            }
        }

        Column {
            width: parent.width

            Repeater {
                model: root.view.week

                delegate: Column {
                    id: line

                    required property int day
                    required property string dayWords
                    required property string hoursWords
                    required property bool off
                    required property int opens
                    required property int closes
                    required property int breakMinutes
                    readonly property bool open: root.day === day

                    // Where it would no longer fit, the break goes.
                    function set(off: bool, opens: int, closes: int, pause: int): void {
                        root.view.setDay(line.day, off, opens, closes, closes - opens > pause ? pause : 0)
                    }

                    width: parent ? parent.width : 0

                    SettingLine {
                        title: line.dayWords
                        value: line.hoursWords
                        editable: root.view.ownWeek
                        muted: line.off || !root.view.ownWeek
                        onTapped: root.day = line.open ? 0 : line.day
                    }

                    Column {
                        width: parent.width
                        visible: line.open
                        bottomPadding: visible ? Theme.module : 0
                        spacing: Theme.gap

                        Flow {
                            width: parent.width
                            spacing: Theme.gap

                            ChoiceChip {
                                text: qsTr("Works")
                                selected: !line.off
                                onTapped: line.set(false, line.opens, line.closes, line.breakMinutes)
                            }

                            ChoiceChip {
                                text: qsTr("Off")
                                selected: line.off
                                onTapped: line.set(true, 0, 0, 0)
                            }

                            ActionButton {
                                paper: true
                                visible: !line.off
                                text: qsTr("All working days so")
                                onTapped: root.view.likeThisDay(line.day)
                            }
                        }

                        Flow {
                            width: parent.width
                            visible: !line.off
                            spacing: Theme.gap

                            TimeStep {
                                title: qsTr("Begins")
                                minute: line.opens
                                most: line.closes - step
                                onChosen: minute => line.set(false, minute, line.closes, line.breakMinutes)
                            }

                            TimeStep {
                                title: qsTr("Ends")
                                minute: line.closes
                                least: line.opens + step
                                onChosen: minute => line.set(false, line.opens, minute, line.breakMinutes)
                            }
                        }

                        Flow {
                            width: parent.width
                            visible: !line.off
                            spacing: Theme.gap

                            Repeater {
                                model: [0, 30, 45, 60]

                                delegate: ChoiceChip {
                                    required property int modelData

                                    text: modelData === 0 ? qsTr("No break") : qsTr("Break of %1 min").arg(modelData)
                                    selected: line.breakMinutes === modelData
                                    onTapped: line.set(false, line.opens, line.closes, modelData)
                                }
                            }
                        }
                    }
                }
            }
        }

        Label {
            width: parent.width
            visible: text.length > 0
            text: root.view.weekFault.length > 0 ? qsTr("So it cannot be: %1.").arg(root.view.weekFault) : ""
            strong: true
            wrapMode: Text.WordWrap
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Cancel")
            onTapped: root.shown = false
        },
        ActionButton {
            paper: true
            kind: ActionButton.Accent
            text: qsTr("Save")
            available: !root.view.ask.busy && root.view.weekFault.length === 0
            onTapped: root.view.save()
        }
    ]
}

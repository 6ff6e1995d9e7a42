// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// People and bays: enough to run a workshop. Every change asks for the PIN again.
ScreenFrame {
    id: root

    readonly property StaffView view: shell.staff

    title: qsTr("Staff and bays")

    Component.onDestruction: root.shell.staffOpen = false

    Connections {
        target: root.view.ask

        // What is done at once, such as a badge, leaves what was typed on the sheet.
        function onDone(what: string): void {
            if (what === "save")
                personSheet.shown = false
            else if (what === "saveBay")
                baySheet.shown = false
            else if (what === "pin")
                personSheet.choosesPin = personSheet.fresh
        }
    }

    Connections {
        target: root.shell.settings.times.ask

        function onDone(what: string): void {
            timesSheet.shown = false
            weekSheet.shown = false
            extraSheet.shown = false
        }
    }

    Connections {
        target: root.shell.settings.competence.ask

        function onDone(what: string): void {
            competenceSheet.shown = false
        }
    }

    Column {
        id: warnings

        anchors { left: parent.left; right: parent.right; top: parent.top }
        spacing: Theme.half

        Repeater {
            model: root.view.warnings

            delegate: Label {
                required property string modelData
                required property int index

                // The first three: more would leave no room for the people.
                visible: index < 3
                width: warnings.width
                text: modelData
                paper: false
                wrapMode: Text.WordWrap
            }
        }

        ActionButton {
            visible: root.view.warnings.length > 3
            text: qsTr("All %1").arg(root.view.warnings.length)
            onTapped: allWarnings.shown = true
        }

        Banner {
            width: parent.width
            visible: root.view.ask.refused && !personSheet.shown && !baySheet.shown
            what: root.view.ask.words
            kind: root.view.ask.canRetry ? Banner.Fault : Banner.Refusal
            action: root.view.ask.canRetry ? qsTr("Try again") : ""
            onActed: root.view.ask.retry()
            onClosed: root.view.ask.dismiss()
        }
    }

    Sheet {
        id: peopleSheet

        anchors { left: parent.left; top: warnings.bottom; topMargin: warnings.height > 0 ? Theme.module : 0 }
        width: root.tall ? parent.width : parent.width * 0.6
        height: root.tall ? (parent.height - warnings.height) * 0.6 : parent.height - y
        title: qsTr("People")

        ListView {
            id: people

            anchors.fill: parent
            clip: true
            boundsBehavior: Flickable.DragOverBounds
            model: root.view.people

            delegate: Touchable {
                id: person

                required property int personId
                required property string name
                required property string skillWords
                required property string rightWords
                required property bool active

                width: people.width
                implicitHeight: Math.max(Theme.touch, lines.implicitHeight + Theme.module)
                spoken: person.name
                onTapped: {
                    root.view.edit(person.personId)
                    personSheet.shown = true
                }

                Rectangle {
                    width: parent.width
                    height: Theme.line
                    color: Theme.rule
                }

                Column {
                    id: lines

                    anchors { left: parent.left; right: state.left; rightMargin: Theme.module; verticalCenter: parent.verticalCenter }

                    Label {
                        width: parent.width
                        text: person.name
                        muted: !person.active
                        elide: Text.ElideRight
                    }

                    Label {
                        width: parent.width
                        text: root.dotted(person.skillWords, person.rightWords)
                        role: Label.Detail
                        muted: true
                        wrapMode: Text.WordWrap
                    }
                }

                Label {
                    id: state

                    anchors { right: parent.right; verticalCenter: parent.verticalCenter }
                    text: person.active ? "" : qsTr("left")
                    muted: true
                }
            }
        }
    }

    Sheet {
        anchors { right: parent.right; bottom: parent.bottom }
        width: root.tall ? parent.width : parent.width - peopleSheet.width - Theme.module
        height: root.tall ? parent.height - peopleSheet.y - peopleSheet.height - Theme.module : peopleSheet.height
        title: qsTr("Bays")

        ListView {
            id: bays

            anchors.fill: parent
            clip: true
            boundsBehavior: Flickable.DragOverBounds
            model: root.view.bays

            delegate: Touchable {
                id: bay

                required property int bayId
                required property int number
                required property string name
                required property string kindWords
                required property bool active

                width: bays.width
                spoken: bay.name
                onTapped: {
                    root.view.editBay(bay.bayId)
                    baySheet.shown = true
                }

                Rectangle {
                    width: parent.width
                    height: Theme.line
                    color: Theme.rule
                }

                Label {
                    anchors { left: parent.left; right: kind.left; verticalCenter: parent.verticalCenter }
                    text: qsTr("%1 %2").arg(bay.number).arg(bay.name)
                    muted: !bay.active
                    elide: Text.ElideRight
                }

                Label {
                    id: kind

                    anchors { right: parent.right; verticalCenter: parent.verticalCenter }
                    text: bay.active ? bay.kindWords : qsTr("closed")
                    role: Label.Detail
                    muted: true
                }
            }
        }
    }

    ways: [
        ActionButton {
            text: qsTr("Settings")
            onTapped: root.navigator.openSettings()
        },
        ActionButton {
            text: qsTr("End of the shift: pause all")
            available: !root.view.ask.busy
            onTapped: root.view.stopAllWork()
        }
    ]

    actions: [
        ActionButton {
            text: qsTr("Add a bay")
            onTapped: {
                root.view.editBay(0)
                baySheet.shown = true
            }
        },
        ActionButton {
            kind: ActionButton.Accent
            text: qsTr("Add a person")
            onTapped: {
                root.view.edit(0)
                personSheet.shown = true
            }
        }
    ]

    sheets: [
        DialogSheet {
            id: allWarnings

            title: qsTr("What this house cannot do as it is")
            sheetWidth: Math.min(Theme.mm(260), width - 2 * Theme.margin)
            onDismissed: shown = false

            Column {
                width: parent.width
                spacing: Theme.module

                Repeater {
                    model: root.view.warnings

                    delegate: Label {
                        required property string modelData

                        width: parent.width
                        text: modelData
                        wrapMode: Text.WordWrap
                    }
                }
            }

            actions: [
                ActionButton {
                    paper: true
                    text: qsTr("Close")
                    onTapped: allWarnings.shown = false
                }
            ]
        },
        PersonSheet {
            id: personSheet

            view: root.view
            onShownChanged: root.shell.staffOpen = shown
            onCompetenceWanted: {
                root.shell.settings.competence.edit(root.view.personId)
                personSheet.shown = false
                competenceSheet.shown = true
            }
            onTimesWanted: {
                root.shell.settings.times.edit(root.view.personId)
                personSheet.shown = false
                timesSheet.shown = true
            }
            onWeekWanted: {
                root.shell.settings.times.edit(root.view.personId)
                personSheet.shown = false
                weekSheet.shown = true
            }
            onExtraWanted: {
                root.shell.settings.times.edit(root.view.personId)
                personSheet.shown = false
                extraSheet.shown = true
            }
        },
        WeekSheet {
            id: weekSheet

            view: root.shell.settings.times
        },
        ExtraHoursSheet {
            id: extraSheet

            view: root.shell.settings.times
            today: root.shell.today
            onDayWanted: extraDaySheet.ask("day", qsTr("Extra hours on"), root.shell.today)
        },
        DateSheet {
            id: extraDaySheet

            onEntered: (key, iso) => extraSheet.choose(iso)
        },
        TimesSheet {
            id: timesSheet

            view: root.shell.settings.times
            today: root.shell.today
            onDayWanted: (key, title) => awayDaySheet.ask(key, title, root.shell.today)
        },
        DateSheet {
            id: awayDaySheet

            onEntered: (key, iso) => timesSheet.typed(key, iso)
        },
        CompetenceSheet {
            id: competenceSheet

            view: root.shell.settings.competence
            onDayWanted: (qualificationId, title) => daySheet.ask(qualificationId, title, root.shell.today)
        },
        DateSheet {
            id: daySheet

            emptyText: qsTr("Not held")
            onEntered: (key, iso) => root.shell.settings.competence.setUntil(key, iso)
        },
        BaySheet {
            id: baySheet

            view: root.view
        }
    ]
}

// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Every car in prep, seen from three distances: counts and bays above, the cards between, filters
// and ways on along the lower edge.
FocusScope {
    id: root

    required property Shell shell
    required property Navigator navigator
    readonly property WallModel wall: shell.wall
    readonly property bool tall: height > width
    readonly property bool filtered: wall.filterWords.length > 0
    readonly property string filterKey: wall.skill + "/" + wall.person + "/" + wall.text
    readonly property bool loaded: wall.loaded
    property bool searching: false

    onFilterKeyChanged: grid.positionViewAtBeginning()

    Rectangle {
        anchors.fill: parent
        color: Theme.ground
    }

    WallStrip {
        id: strip

        anchors { left: parent.left; right: parent.right; top: parent.top; leftMargin: Theme.margin; rightMargin: Theme.margin; topMargin: Theme.half }
        visible: !root.searching
        shell: root.shell
        tall: root.tall
        onWanted: carId => root.navigator.openCar(carId)
    }

    // Instead of the strip, so that neither the keys nor what they find hide the other.
    Loader {
        id: finder

        readonly property bool wanted: root.searching

        anchors { left: parent.left; right: parent.right; top: parent.top; leftMargin: Theme.margin; rightMargin: Theme.margin; topMargin: Theme.mm(3) }
        onWantedChanged: {
            if (!wanted)
                source = ""
            else
                setSource("WallFinder.qml", { shell: root.shell, navigator: root.navigator })
        }
        onLoaded: (finder.item as WallFinder).edit()
    }

    Connections {
        target: finder.item as WallFinder

        function onEnded(): void {
            root.wall.text = ""
            root.searching = false
        }
    }

    WallGrid {
        id: grid

        anchors {
            left: parent.left
            right: parent.right
            top: root.searching ? finder.bottom : strip.bottom
            bottom: lower.top
            leftMargin: Theme.margin
            rightMargin: Theme.margin - Theme.gap
            topMargin: Theme.gap
            bottomMargin: Theme.half
        }
        shell: root.shell
        navigator: root.navigator
    }

    Waiting {
        anchors.centerIn: grid
        visible: !root.wall.loaded && root.shell.storeFault.length === 0
        text: qsTr("Reading the cars")
    }

    EmptyState {
        anchors.centerIn: grid
        visible: !root.wall.loaded && root.shell.storeFault.length > 0
        title: qsTr("The cars cannot be read")
        hint: qsTr("Nor is known what stands in the bays.")
    }

    EmptyState {
        anchors.centerIn: grid
        visible: root.wall.empty && !root.searching
        title: qsTr("No car in prep")
        hint: qsTr("The wall fills as cars come in: by hand here, or from an appraisal file.")
        action: qsTr("Bring a car in")
        onActed: root.navigator.openArrival()
    }

    EmptyState {
        anchors.centerIn: grid
        visible: root.wall.loaded && !root.wall.empty && grid.count === 0
        title: qsTr("Nothing here for this filter")
        hint: root.wall.filterWords
        action: qsTr("Show all cars")
        onActed: root.showAll()
    }

    function showAll(): void {
        root.searching = false
        root.wall.clearFilter()
    }

    function showSkill(skill: string): void {
        root.wall.person = 0
        root.wall.skill = root.wall.skill === skill ? "" : skill
    }

    // Touched once more it shows all again.
    function showPerson(person: int): void {
        root.wall.skill = ""
        root.wall.person = root.wall.person === person ? 0 : person
    }

    // What stands above and below takes its room before the cards are made: they would be laid out
    // for two other heights first.
    function settle(): void {
        strip.settle()
        for (const part of [tabs, ways, lower])
            part.forceLayout()
    }

    Component.onCompleted: root.settle()
    onLoadedChanged: root.settle()

    // Whoever searched or chose went away: it is there to be seen from across the shop.
    Connections {
        target: root.shell

        function onWallWanted(): void {
            root.searching = false
            people.end()
            grid.positionViewAtBeginning()
        }
    }

    Connections {
        target: own.item as WallOwn

        function onMineWanted(): void {
            root.showPerson(root.shell.session.personId)
        }
    }

    Connections {
        target: root.shell.session

        function onPersonChanged(): void {
            root.wall.person = 0
        }
    }

    Column {
        id: lower

        anchors { left: parent.left; right: parent.right; bottom: parent.bottom; leftMargin: Theme.margin; rightMargin: Theme.margin; bottomMargin: Theme.module }
        spacing: Theme.gap

        Loader {
            id: own

            readonly property bool wanted: root.shell.session.signedIn

            width: parent.width
            height: Theme.touch
            visible: wanted
            onWantedChanged: {
                if (wanted && item === null)
                    setSource("WallOwn.qml", { shell: root.shell, navigator: root.navigator })
            }
        }

        // Drafts of spoken walk-rounds, for whoever may decide about them.
        Touchable {
            id: drafts

            width: parent.width
            visible: root.shell.transcripts.waitingWords.length > 0 && (root.shell.session.mayAppraise || !root.shell.session.signedIn)
            height: Theme.touch
            spoken: spokenWords.text
            onTapped: root.navigator.openTranscripts("")

            Rectangle {
                anchors.fill: parent
                radius: Theme.radius
                color: drafts.pressed ? Theme.groundLine : Theme.raised
            }

            Label {
                id: spokenWords

                anchors { left: parent.left; right: review.left; margins: Theme.mm(6); verticalCenter: parent.verticalCenter }
                text: root.shell.transcripts.waitingWords
                paper: false
                elide: Text.ElideRight
            }

            Label {
                id: review

                anchors { right: parent.right; rightMargin: Theme.mm(6); verticalCenter: parent.verticalCenter }
                text: qsTr("go on")
                paper: false
                font.underline: true
            }
        }

        // Nobody here may finish some of the work: said before it is late.
        WarningLine {
            text: root.shell.houseWarnings.length === 0 ? "" : root.shell.houseWarnings.length === 1 ? root.shell.houseWarnings[0]
                : qsTr("%1 kinds of work cannot be finished with the people here: see Staff and bays").arg(root.shell.houseWarnings.length)
            onTapped: root.navigator.openStaff()
        }

        // Whoever signs next should know.
        WarningLine {
            text: root.shell.clockWarning
            onTapped: root.navigator.openSettings()
        }

        // Not everything came back with the workshop: said to everybody, who may be about to go on
        // with such a car.
        WarningLine {
            text: root.shell.backups.leftBehind
            onTapped: root.navigator.openSettings()
        }

        // The backups, for whoever can see to them.
        WarningLine {
            text: root.shell.session.mayManage ? root.shell.backups.warning : ""
            onTapped: root.navigator.openSettings()
        }

        // Every filter is in reach without a drag, beside the ways on or in a row above them; what
        // does not fit even when it is compact stands in one more.
        Item {
            width: parent.width
            height: root.tall ? tabs.height + ways.height + Theme.gap : Math.max(tabs.height, ways.height)

            Flow {
                id: tabs

                readonly property real wanted: fullWidth()
                readonly property bool compact: wanted > width

                function fullWidth(): real {
                    let sum = 0
                    for (let at = 0; at < tabs.children.length; ++at) {
                        const tab = tabs.children[at] as FilterTab
                        if (tab !== null)
                            sum += tab.fullWidth + (sum > 0 ? tabs.spacing : 0)
                    }
                    return sum
                }

                width: root.tall ? parent.width : parent.width - ways.width - Theme.gap
                spacing: Theme.gap

                FilterTab {
                    text: qsTr("All")
                    selected: !root.filtered
                    onTapped: root.showAll()
                }

                Repeater {
                    model: root.wall.skills

                    delegate: FilterTab {
                        required property string skill
                        required property string title
                        required property int cars

                        stacked: true
                        compact: tabs.compact
                        text: title
                        count: cars
                        selected: root.wall.skill === skill
                        onTapped: root.showSkill(skill)
                    }
                }

                FilterTab {
                    readonly property bool chosen: root.wall.person > 0

                    stacked: true
                    compact: tabs.compact
                    mostWidth: Theme.mm(48)
                    text: chosen ? root.wall.personName : qsTr("Person")
                    count: chosen ? grid.count : -1
                    note: chosen ? "" : qsTr("any")
                    spoken: chosen ? text + " " + second : text
                    selected: chosen
                    onTapped: people.ask()
                }
            }

            Row {
                id: ways

                anchors { right: parent.right; bottom: parent.bottom }
                spacing: Theme.gap

                ActionButton {
                    text: ""
                    implicitWidth: Theme.touch
                    symbol: Icon.Search
                    spoken: qsTr("Search")
                    onTapped: root.searching = true
                }

                ActionButton {
                    text: qsTr("Bays")
                    onTapped: root.navigator.openBays()
                }

                ActionButton {
                    text: root.tall ? spoken : qsTr("Staff\nand bays")
                    spoken: qsTr("Staff and bays")
                    onTapped: root.navigator.openStaff()
                }

                ActionButton {
                    text: root.tall ? spoken : qsTr("Bring\na car in")
                    spoken: qsTr("Bring a car in")
                    onTapped: root.navigator.openArrival()
                }

                PersonChip {
                    shell: root.shell
                    navigator: root.navigator
                    accent: true
                }
            }
        }
    }

    LaterSheet {
        id: people

        file: "WallPersonSheet.qml"
        given: ({ wall: root.wall })
    }

    Connections {
        target: people.item as WallPersonSheet

        function onSaid(person: int): void {
            root.showPerson(person)
        }
    }
}
